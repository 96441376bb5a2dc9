import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { gunzipSync } from 'node:zlib';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';
import { migrations } from '../../src-main/casebook/migrate.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { HINDRANCE, powerCutEnvironment, type Watched } from './power-cut-shim.ts';

const NAME = 'casebook.sqlite';
/** As the program of 26 November 2026 wrote it, with 146 cases. */
const OLD = gunzipSync(
  readFileSync(path.join(import.meta.dirname, '..', 'casebook', 'fixtures', 'casebook-2026-11-26.sqlite.gz')),
);
const CASES = 146;

/** What lies in a folder, by name. */
type Disk = ReadonlyMap<string, Buffer>;

function written(disk: Disk): string {
  const folder = temporaryFolder();
  for (const [name, bytes] of disk) writeFileSync(path.join(folder, name), bytes);
  return path.join(folder, NAME);
}

interface Held {
  readonly events: readonly unknown[];
  readonly migrations: number;
  readonly isSound: boolean;
}

/** What SQLite itself finds in a casebook, with whatever its journal holds. */
function heldIn(file: string): Held {
  const database = new Database(file);
  try {
    return {
      events: database
        .prepare('select case_id, seq, at, event_json from case_events order by case_id, seq')
        .all(),
      migrations: database.prepare('select name from kysely_migration').all().length,
      isSound: database.pragma('integrity_check', { simple: true }) === 'ok',
    };
  } finally {
    database.close();
  }
}

const asItWas = () => heldIn(written(new Map([[NAME, OLD]])));
const ALL = Object.keys(migrations).length;

/** An old casebook on a disk that is watched, brought to today's form by a program of its own. */
function migrated(mode: 'whole' | 'kill'): Required<Watched> & { readonly signal: string | null } {
  const folder = temporaryFolder();
  const [watched, synced, history] = ['watched', 'synced', 'history'].map((one) =>
    path.join(folder, one),
  ) as [string, string, string];
  for (const one of [watched, synced, history]) mkdirSync(one);
  for (const one of [watched, synced]) writeFileSync(path.join(one, NAME), OLD);
  const program = path.join(import.meta.dirname, 'migrate.ts');
  const ended = spawnSync(
    process.execPath,
    [program, path.join(watched, NAME), ...(mode === 'kill' ? [mode] : [])],
    { encoding: 'utf8', env: powerCutEnvironment(folder, { watched, synced, history }) },
  );
  if (mode === 'whole' && ended.status !== 0) throw new Error(ended.stderr);
  return { watched, synced, history, signal: ended.signal };
}

/** What lay on the disk after each step, and in the midst of each that wrote: its first half there, the rest as before. */
function disksOf(history: string): Disk[] {
  const disks: Disk[] = [];
  let disk: Disk = new Map([[NAME, OLD]]);
  for (const step of readdirSync(history).sort()) {
    const [, kind, name = '', to = ''] = step.split(',');
    if (kind === 'sync') {
      const [now, then] = [readFileSync(path.join(history, step)), disk.get(name) ?? Buffer.alloc(0)];
      const half = Math.floor(now.length / 2);
      disks.push(new Map([...disk, [name, Buffer.concat([now.subarray(0, half), then.subarray(half)])]]));
      disk = new Map([...disk, [name, now]]);
    } else {
      const others = new Map([...disk].filter(([one]) => one !== name && one !== to));
      const moved = disk.get(name);
      disk = kind === 'rename' && moved ? new Map([...others, [to, moved]]) : others;
    }
    disks.push(disk);
  }
  return disks;
}

/** The next start, as a shop has it. */
async function expectAllThere(file: string, before: Held): Promise<void> {
  const casebook = new FileCasebook(file, () => new Date(), { makesBackups: false });
  await casebook.open();
  onTestFinished(() => casebook.close());
  expect(casebook.isOpen ? '' : casebook.problem).toBe('');
  const counted = await casebook.db
    .selectFrom('cases')
    .select(({ fn }) => fn.countAll().as('n'))
    .executeTakeFirst();
  expect(Number(counted?.n)).toBe(CASES);
  await casebook.close();
  const after = heldIn(file);
  expect(after.isSound).toBe(true);
  expect(after.migrations).toBe(ALL);
  expect(after.events).toEqual(before.events);
}

describe.skipIf(HINDRANCE)(
  `a cut of the power inside a migration${HINDRANCE && `, not played: ${HINDRANCE}`}`,
  () => {
    it('in its midst leaves the casebook as it was, and the next start brings it to today’s form', async () => {
      const before = asItWas();
      const { watched, synced, signal } = migrated('kill');
      expect(signal).toBe('SIGKILL');
      for (const folder of [synced, watched]) {
        const file = path.join(folder, NAME);
        expect(heldIn(file)).toEqual(before);
        await expectAllThere(file, before);
      }
    }, 300_000);

    it('after any step, or in its midst, leaves all of it or none, and every case', async () => {
      const before = asItWas();
      const disks = disksOf(migrated('whole').history);
      const outcomes = new Set<number>();
      for (const disk of disks) {
        // A look would take in the journal: it has a copy of its own.
        const { migrations: done, events, isSound } = heldIn(written(disk));
        expect([before.migrations, ALL]).toContain(done);
        expect(isSound).toBe(true);
        expect(events).toEqual(before.events);
        outcomes.add(done);
        await expectAllThere(written(disk), before);
      }
      expect([...outcomes].sort()).toEqual([before.migrations, ALL].sort());
    }, 300_000);
  },
);
