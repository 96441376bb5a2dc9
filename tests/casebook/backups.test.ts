import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { keptBackups } from '../../src-main/casebook/backup-tiers.ts';
import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';
import { listPrinters, savePrinter } from '../../src-main/casebook/printer.repository.ts';
import { temporaryFolder } from '../temporary-folder.ts';

/** A disk without room for a copy, while set. */
const disk = vi.hoisted(() => ({ isFull: false, failsRenameTo: '' }));
vi.mock('node:fs', async (original) => {
  const real = await original<typeof import('node:fs')>();
  const fail = (code: string) => {
    throw Object.assign(new Error(`${code}: refused by the test`), { code });
  };
  return {
    ...real,
    copyFileSync: (from: string, to: string) => (disk.isFull ? fail('ENOSPC') : real.copyFileSync(from, to)),
    renameSync: (from: string, to: string) =>
      disk.failsRenameTo !== '' && to.endsWith(disk.failsRenameTo) && !from.includes('before-restore')
        ? fail('EIO')
        : real.renameSync(from, to),
  };
});

const NOON = Date.parse('2026-03-02T12:00:00.000Z');
const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const printer = {
  id: '01ARZ3NDEKTSV4RRFFQ69G5FAV',
  label: 'Heron',
  conditions: {},
  printHours: 12,
  note: '',
  isRetired: false,
  isDemo: false,
};

/** An open casebook with a clock that the test moves. */
async function openedAt(folder: string, clock: { ms: number }, makesBackups = true): Promise<FileCasebook> {
  const casebook = new FileCasebook(path.join(folder, 'casebook.sqlite'), () => new Date(clock.ms), {
    makesBackups,
  });
  await casebook.open();
  onTestFinished(() => casebook.close());
  return casebook;
}

const dated = (ms: number, cases: number | null = 1) => {
  const at = new Date(ms).toISOString();
  return { name: `casebook-${at}`, at, cases };
};

describe('A5, attack 1: the tiers of backups', () => {
  it('forty starts within an hour, and as many reads by commands, cost no older backup', async () => {
    const folder = temporaryFolder();
    const clock = { ms: NOON - 90 * DAY };
    const casebook = await openedAt(folder, clock);
    await savePrinter(casebook.db, printer, new Date(clock.ms).toISOString());
    for (; clock.ms < NOON; clock.ms += DAY) await casebook.makeBackup();
    await casebook.close();
    await (await openedAt(folder, clock)).close();
    const before = readdirSync(casebook.backupFolder);
    expect(before.length).toBeGreaterThan(15);
    for (let start = 0; start < 40; start++) {
      clock.ms += 60_000;
      await (await openedAt(folder, clock, start % 2 === 0)).close();
    }
    const after = readdirSync(casebook.backupFolder);
    expect(after).toEqual(before);
  });

  it('a command that only reads makes none', async () => {
    const folder = temporaryFolder();
    const clock = { ms: NOON };
    await (await openedAt(folder, clock, false)).close();
    clock.ms += 2 * DAY;
    const second = await openedAt(folder, clock, false);
    expect(second.listBackups()).toEqual([]);
  });

  it('keep the newest 6, and of 12 hours, 10 days, 6 weeks and 12 months, however often they are made', () => {
    const everyTenMinutes = Array.from({ length: 6 * 24 * 400 }, (_, i) => dated(NOON - i * 600_000));
    const kept = keptBackups(everyTenMinutes, new Date(NOON), null);
    expect(kept.size).toBeLessThanOrEqual(46);
    const ages = [...kept].map((name) => (NOON - Date.parse(name.slice('casebook-'.length))) / DAY);
    // The newest six, of which two are the newest of their hours, and ten hours more.
    expect(ages.filter((age) => age < 0.5).length).toBeGreaterThanOrEqual(6 + 10);
    expect(kept.has(everyTenMinutes[5]?.name ?? '')).toBe(true);
    expect(ages.filter((age) => age < 10).length).toBeGreaterThanOrEqual(12 + 8);
    expect(Math.max(...ages)).toBeGreaterThan(300);
  });

  it('never lose the fullest one to backups of a casebook that was emptied', () => {
    const full = dated(NOON - 3 * 365 * DAY, 5000);
    const empty = Array.from({ length: 800 }, (_, i) => dated(NOON - i * DAY, 0));
    expect(keptBackups([full, ...empty], new Date(NOON), null).has(full.name)).toBe(true);
  });

  it('are not crowded out by backups of a time that is still to come', () => {
    const toCome = Array.from({ length: 400 }, (_, i) => dated(NOON + 400 * DAY + i * HOUR));
    const past = Array.from({ length: 5 }, (_, i) => dated(NOON - i * DAY));
    const kept = keptBackups([...toCome, ...past], new Date(NOON), null);
    for (const { name } of past) expect(kept.has(name)).toBe(true);
  });
});

describe('B8, attack 14: what counts as a good backup', () => {
  async function withManyPrinters(folder: string, clock: { ms: number }) {
    const casebook = await openedAt(folder, clock);
    for (let i = 0; i < 200; i++) {
      const one = { ...printer, id: `P${i}`, label: `Printer ${i}`, note: 'x'.repeat(400) };
      await savePrinter(casebook.db, one, new Date(clock.ms).toISOString());
    }
    return casebook;
  }

  it('one with a garbage page is not offered, and restoring it moves nothing', async () => {
    const folder = temporaryFolder();
    const casebook = await withManyPrinters(folder, { ms: NOON });
    const { name } = await casebook.makeBackup();
    const file = path.join(casebook.backupFolder, name);
    const bytes = readFileSync(file);
    bytes.fill(0xa5, 4096 * 8, 4096 * 10);
    writeFileSync(file, bytes);
    expect(casebook.listBackups()[0]).toMatchObject({ name, cases: null });
    await expect(casebook.restore(name)).rejects.toThrow(/not good itself/);
    expect(casebook.isOpen).toBe(true);
    expect(await listPrinters(casebook.db)).toHaveLength(200);
    expect(readdirSync(folder).filter((one) => /part|restor/.test(one))).toEqual([]);
  });

  it('a good one is listed though its folder may not be written, and leaves no journal files', async () => {
    const folder = temporaryFolder();
    const casebook = await withManyPrinters(folder, { ms: NOON });
    await casebook.makeBackup();
    expect(casebook.listBackups()[0]?.cases).toBe(0);
    expect(readdirSync(casebook.backupFolder)).toHaveLength(1);
  });
});

describe('attack 15: litter', () => {
  it('of killed backups is cleared on the next start', async () => {
    const folder = temporaryFolder();
    const clock = { ms: NOON };
    const first = await openedAt(folder, clock);
    const { name } = await first.makeBackup();
    await first.close();
    for (const litter of [
      'casebook-2026-01-01T00-00-00-000Z.sqlite.part',
      'casebook-2026-01-01T00-00-00-000Z.sqlite.part-journal',
      'casebook-2026-01-01T00-00-00-000Z.sqlite-wal',
      'casebook-2026-01-01T00-00-00-000Z.sqlite-shm',
      `${name}-shm`,
      `${name}-wal`,
    ])
      writeFileSync(path.join(first.backupFolder, litter), '');
    writeFileSync(path.join(first.backupFolder, 'somebody else.txt'), 'stays');
    await openedAt(folder, clock);
    expect(readdirSync(first.backupFolder).sort()).toEqual([name, 'somebody else.txt']);
  });
});

describe('A6, A7: restoring', () => {
  async function withBackup(folder: string) {
    const casebook = await openedAt(folder, { ms: NOON });
    await savePrinter(casebook.db, printer, new Date(NOON).toISOString());
    const { name } = await casebook.makeBackup();
    await savePrinter(casebook.db, { ...printer, label: 'Renamed' }, new Date(NOON).toISOString());
    return { casebook, name };
  }
  const labels = async (casebook: FileCasebook) =>
    (await listPrinters(casebook.db)).map(({ label }) => label);

  it('with a full disk moves nothing: the casebook stays open as it was', async () => {
    const { casebook, name } = await withBackup(temporaryFolder());
    disk.isFull = true;
    onTestFinished(() => void (disk.isFull = false));
    await expect(casebook.restore(name)).rejects.toMatchObject({ code: 'ENOSPC' });
    expect(casebook.isOpen).toBe(true);
    expect(await labels(casebook)).toEqual(['Renamed']);
  });

  it('that fails at the swap puts everything back', async () => {
    const folder = temporaryFolder();
    const { casebook, name } = await withBackup(folder);
    disk.failsRenameTo = 'casebook.sqlite';
    onTestFinished(() => void (disk.failsRenameTo = ''));
    await expect(casebook.restore(name)).rejects.toMatchObject({ code: 'EIO' });
    disk.failsRenameTo = '';
    expect(casebook.isOpen).toBe(true);
    expect(await labels(casebook)).toEqual(['Renamed']);
  });

  it('twice at once: one succeeds, the other is told, and the casebook is open', async () => {
    const { casebook, name } = await withBackup(temporaryFolder());
    const both = await Promise.allSettled([casebook.restore(name), casebook.restore(name)]);
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(both.find(({ status }) => status === 'rejected')).toMatchObject({
      reason: { message: expect.stringContaining('under way') },
    });
    expect(casebook.isOpen).toBe(true);
    expect(await labels(casebook)).toEqual(['Heron']);
  });

  it.each(['before the old one was moved', 'after the old one was moved'])(
    'cut short by a kill %s ends with the one or the other, whole',
    async (moment) => {
      const folder = temporaryFolder();
      const { casebook, name } = await withBackup(folder);
      await casebook.close();
      const file = casebook.file;
      const ready = `${file}.restoring`;
      writeFileSync(ready, readFileSync(path.join(casebook.backupFolder, name)));
      writeFileSync(`${file}.part`, 'half a copy');
      if (moment.startsWith('after')) {
        writeFileSync(`${file}.before-restore-2026-03-02T12-00-00-000Z`, readFileSync(file));
        rmSync(file);
      }
      const next = await openedAt(folder, { ms: NOON + 1000 });
      expect(next.isOpen).toBe(true);
      expect(await labels(next)).toEqual([moment.startsWith('after') ? 'Heron' : 'Renamed']);
      expect([existsSync(ready), existsSync(`${file}.part`)]).toEqual([false, false]);
    },
  );

  it('of a backup by a newer version is refused, with nothing moved', async () => {
    const folder = temporaryFolder();
    const { casebook, name } = await withBackup(folder);
    const { default: Database } = await import('better-sqlite3');
    const newer = new Database(path.join(casebook.backupFolder, name));
    newer.exec("insert into kysely_migration values ('2999-01-01-of-tomorrow', 'x')");
    newer.close();
    await expect(casebook.restore(name)).rejects.toThrow(/newer Beadwright/);
    expect(await labels(casebook)).toEqual(['Renamed']);
  });

  it('needs no folder that is not there', async () => {
    const folder = path.join(temporaryFolder(), 'a');
    mkdirSync(folder);
    const casebook = await openedAt(folder, { ms: NOON });
    await expect(casebook.restore('casebook-x.sqlite')).rejects.toThrow('no backup');
    expect(casebook.isOpen).toBe(true);
  });
});
