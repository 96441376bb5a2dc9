import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { seededRandom } from '../../src-core/training/seeded-random.ts';
import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';
import { listPrinters, savePrinter } from '../../src-main/casebook/printer.repository.ts';
import { isNightly } from '../nightly.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { figure } from './figures.ts';

const VARIANTS = isNightly ? 200 : 16;
const PRINTERS = 3;
const now = () => new Date('2026-03-02T12:00:00.000Z');
const heron = { label: 'Heron', conditions: {}, printHours: 1, note: '', isRetired: false, isDemo: false };

type Damage = (file: string, random: () => number) => void;

/** A page in the middle of the file, as a torn or misdirected write leaves it. */
const overwritten =
  (fill: (random: () => number) => number, bytes: number): Damage =>
  (file, random) => {
    const content = readFileSync(file);
    const at = Math.floor(random() * Math.max(1, content.length - bytes));
    for (let i = at; i < Math.min(content.length, at + bytes); i++) content[i] = fill(random);
    writeFileSync(file, content);
  };

const DAMAGES: readonly (readonly [string, Damage])[] = [
  ['cut off', (file, random) => truncateSync(file, Math.floor(random() * readFileSync(file).length))],
  ['a page of noise', overwritten((random) => Math.floor(random() * 256), 4096)],
  ['a page of zeros', overwritten(() => 0, 4096)],
  ['one byte turned', overwritten((random) => Math.floor(random() * 256), 1)],
  ['another file', (file) => writeFileSync(file, 'GIF89a')],
  ['a journal of noise', (file, random) => writeFileSync(`${file}-wal`, noise(random, 20_000))],
  ['gone', (file) => rmSync(file)],
  [
    'grown by noise',
    (file, random) => writeFileSync(file, Buffer.concat([readFileSync(file), noise(random, 5000)])),
  ],
];

function noise(random: () => number, bytes: number): Buffer {
  return Buffer.from(Array.from({ length: bytes }, () => Math.floor(random() * 256)));
}

it(`${VARIANTS} damaged casebooks: each opens whole or is refused in words and left as it is, and the backup comes back`, async () => {
  const folder = temporaryFolder();
  const whole = path.join(folder, 'casebook.sqlite');
  const first = new FileCasebook(whole, now);
  await first.open();
  for (let one = 0; one < PRINTERS; one++)
    await savePrinter(first.db, { ...heron, id: String(one).padStart(26, '0') }, now().toISOString());
  const { name } = await first.makeBackup();
  await first.close();

  const random = seededRandom(1966);
  const counted = { opened: 0, refused: 0, restored: 0 };
  for (let variant = 0; variant < VARIANTS; variant++) {
    const [what, damage] = DAMAGES[variant % DAMAGES.length] ?? [];
    const place = path.join(folder, `variant-${variant}`);
    const file = path.join(place, 'casebook.sqlite');
    mkdirSync(path.join(place, 'backups'), { recursive: true });
    copyFileSync(whole, file);
    copyFileSync(path.join(folder, 'backups', name), path.join(place, 'backups', name));
    damage?.(file, random);
    const asDamaged = existsSync(file) ? readFileSync(file) : null;

    const casebook = new FileCasebook(file, now, { makesBackups: false });
    // Whatever is the matter, opening never throws.
    await casebook.open();
    if (casebook.isOpen) {
      counted.opened += 1;
    } else {
      counted.refused += 1;
      expect(casebook.problem, what).toContain(file);
      // A backup is named, and nothing was touched meanwhile.
      expect(casebook.problem, what).toContain(name);
      expect(existsSync(file) ? readFileSync(file) : null, what).toEqual(asDamaged);
      await casebook.restore(name);
      counted.restored += 1;
    }
    expect(await listPrinters(casebook.db), what).toHaveLength(PRINTERS);
    await casebook.close();
  }
  expect(counted.opened + counted.restored).toBe(VARIANTS);
  expect(counted.refused).toBeGreaterThan(0);
  figure(
    'file damage',
    `${VARIANTS} variants, 0 crashes; ${counted.opened} opened, ${counted.refused} refused untouched, restore worked in ${counted.restored}`,
  );
}, 3_600_000);
