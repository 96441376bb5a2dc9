import { inEnglish } from '../../src-core/words/in-english.ts';
import { readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import type { Migration } from 'kysely/migration';
import { describe, expect, it, onTestFinished } from 'vitest';
import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';
import { takeLock } from '../../src-main/casebook/lock-file.ts';
import { migrateToLatest, migrations } from '../../src-main/casebook/migrate.ts';
import { openDatabase } from '../../src-main/casebook/open-database.ts';
import { listPrinters, savePrinter } from '../../src-main/casebook/printer.repository.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { temporaryFolder } from '../temporary-folder.ts';

const NOON = new Date('2026-03-02T12:00:00.000Z');

async function openedCasebook(folder: string, now = () => NOON): Promise<FileCasebook> {
  const casebook = new FileCasebook(path.join(folder, 'casebook.sqlite'), now);
  await casebook.open();
  onTestFinished(() => casebook.close());
  return casebook;
}

const printer = {
  id: '01ARZ3NDEKTSV4RRFFQ69G5FAV',
  label: 'Heron',
  conditions: { 'nozzle-mm': 0.8 },
  printHours: 12,
  note: '',
  isRetired: false,
  isDemo: false,
};

describe('opening a casebook', () => {
  it('keeps acknowledged writes on disk: WAL with synchronous FULL and foreign keys on', () => {
    const opened = openDatabase(path.join(temporaryFolder(), 'casebook.sqlite'));
    if (!opened.ok) throw new Error(inEnglish(opened.said));
    expect(opened.database.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(opened.database.pragma('synchronous', { simple: true })).toBe(2);
    expect(opened.database.pragma('foreign_keys', { simple: true })).toBe(1);
    opened.database.close();
  });

  it('makes its folder on a first start', async () => {
    const casebook = await openedCasebook(path.join(temporaryFolder(), 'not', 'there', 'yet'));
    expect(casebook.isOpen).toBe(true);
  });

  it('never overwrites a file that is no database, and says how to get back', async () => {
    const folder = temporaryFolder();
    const file = path.join(folder, 'casebook.sqlite');
    const rubbish = 'this is not a database at all, but somebody may still want it';
    writeFileSync(file, rubbish);
    const casebook = await openedCasebook(folder);
    expect(casebook.isOpen).toBe(false);
    expect(casebook.problem).toContain('left untouched');
    expect(casebook.problem).toContain('no backup');
    expect(readFileSync(file, 'utf8')).toBe(rubbish);
  });

  it('reports damaged pages inside a database and names the newest good backup', async () => {
    const folder = temporaryFolder();
    const first = await openedCasebook(folder);
    for (let i = 0; i < 200; i++) {
      await savePrinter(
        first.db,
        { ...printer, id: `P${i}`, label: `Printer ${i}`, note: 'x'.repeat(400) },
        NOON.toISOString(),
      );
    }
    const backup = await first.makeBackup();
    await first.close();
    const file = path.join(folder, 'casebook.sqlite');
    const bytes = readFileSync(file);
    bytes.fill(0xa5, 4096 * 3, 4096 * 12);
    writeFileSync(file, bytes);
    const second = await openedCasebook(folder);
    expect(second.isOpen).toBe(false);
    expect(second.problem).toContain(backup.name);
    expect(second.problem).toContain('in the settings');
    expect(readFileSync(file).equals(bytes)).toBe(true);

    const keptAs = await second.restore(backup.name);
    expect(readFileSync(keptAs).equals(bytes)).toBe(true);
    expect(await listPrinters(second.db)).toHaveLength(200);
  });

  it('asks instead of beginning anew where the casebook is gone and its backups are there', async () => {
    const folder = temporaryFolder();
    const { ask, program } = await programInMemory({ file: path.join(folder, 'casebook.sqlite') });
    await ask('case:open', { complaints: [{ observation: 'stringing', value: 'slight' }] });
    const first = program.casebook;
    if (!first.upkeep) throw new Error('a file has its own backups');
    const backup = await first.upkeep.makeBackup();
    expect(backup.cases).toBe(1);
    await first.close();
    rmSync(first.place);
    const second = await openedCasebook(folder);
    expect([second.isOpen, second.canBeginEmpty]).toEqual([false, true]);
    expect(second.problem).toContain('There is no casebook at');
    expect(second.problem).toContain(backup.name);
    await second.restore(backup.name);
    expect([second.isOpen, second.canBeginEmpty]).toEqual([true, false]);
    await expect(second.beginEmpty()).rejects.toThrow();
    await second.close();

    rmSync(second.file);
    const third = await openedCasebook(folder);
    const setAside = await third.beginEmpty();
    expect(third.isOpen).toBe(true);
    expect(readdirSync(setAside)).toContain(backup.name);
    expect(third.listBackups()).toEqual([]);
  });

  it('opens by itself once the other program that had it is closed', async () => {
    const folder = temporaryFolder();
    let nowMs = NOON.getTime();
    const first = await openedCasebook(folder);
    const second = await openedCasebook(folder, () => new Date(nowMs));
    await second.tryAgain();
    expect(second.isOpen).toBe(false);
    await first.close();
    nowMs += 5000;
    await Promise.all([second.tryAgain(), second.tryAgain()]);
    expect(second.isOpen).toBe(true);
  });

  it('refuses a second host on the same casebook and takes over from one that died', async () => {
    const folder = temporaryFolder();
    await openedCasebook(folder);
    const second = await openedCasebook(folder);
    expect(second.isOpen).toBe(false);
    expect(second.problem).toContain('in use by another');

    const stale = path.join(folder, 'stale.lock');
    writeFileSync(stale, '999999999');
    expect(takeLock(stale).ok).toBe(true);
    // In a container the next start often gets the number of the one that was killed.
    const ofOwnNumber = path.join(folder, 'own-number.lock');
    writeFileSync(ofOwnNumber, String(process.pid));
    expect(takeLock(ofOwnNumber).ok).toBe(true);
    expect(takeLock(ofOwnNumber)).toEqual({ ok: false, heldBy: process.pid });
    expect([second.canRestore, second.problem.length > 0]).toEqual([false, true]);
  });

  it('takes nothing more once its file was deleted under it, saves what was there, and can be brought back', async () => {
    const folder = temporaryFolder();
    const casebook = await openedCasebook(folder);
    await savePrinter(casebook.db, printer, NOON.toISOString());
    for (const ending of ['', '-wal', '-shm'])
      rmSync(path.join(folder, `casebook.sqlite${ending}`), { force: true });
    expect(casebook.isOpen).toBe(false);
    expect(casebook.problem).toContain('deleted, moved or replaced');
    await expect.poll(() => casebook.listBackups().length).toBe(1);
    const [saved] = casebook.listBackups();
    await casebook.restore(saved?.name ?? '');
    expect(casebook.isOpen).toBe(true);
    expect((await listPrinters(casebook.db)).map(({ label }) => label)).toEqual(['Heron']);
  });

  it('takes nothing more once another file lies in its place', async () => {
    const folder = temporaryFolder();
    const casebook = await openedCasebook(folder);
    const file = path.join(folder, 'casebook.sqlite');
    renameSync(file, `${file}.old`);
    writeFileSync(file, '');
    expect(casebook.isOpen).toBe(false);
    rmSync(file);
    renameSync(`${file}.old`, file);
    expect(casebook.isOpen).toBe(true);
  });
});

describe('migrations', () => {
  it('one that fails half-way leaves the schema as it was', async () => {
    const casebook = await openedCasebook(temporaryFolder());
    const halfWay: Migration = {
      up: async (db) => {
        await db.schema.createTable('half_done').addColumn('id', 'text').execute();
        throw new Error('the second half fails');
      },
    };
    await expect(
      migrateToLatest(casebook.db, { ...migrations, '2999-01-01-half-way': halfWay }),
    ).rejects.toThrow('second half');
    const tables = await casebook.db.introspection.getTables();
    expect(tables.map((table) => table.name)).not.toContain('half_done');
    expect(tables.map((table) => table.name)).toContain('case_events');
  });
});

describe('backups', () => {
  it('hold what was there when they were made and bring it back', async () => {
    let now = NOON;
    const casebook = await openedCasebook(temporaryFolder(), () => now);
    await savePrinter(casebook.db, printer, NOON.toISOString());
    const backup = await casebook.makeBackup();
    now = new Date(NOON.getTime() + 1000);
    await savePrinter(casebook.db, { ...printer, label: 'Renamed' }, NOON.toISOString());
    const keptAs = await casebook.restore(backup.name);
    expect((await listPrinters(casebook.db)).map((one) => one.label)).toEqual(['Heron']);
    const kept = new Database(keptAs, { readonly: true });
    expect(kept.prepare('select label from printers').pluck().all()).toEqual(['Renamed']);
    kept.close();
  });

  it('are made on every start of a casebook that holds something', async () => {
    const folder = temporaryFolder();
    const first = await openedCasebook(folder);
    expect(first.listBackups()).toHaveLength(0);
    await first.close();
    const second = await openedCasebook(folder);
    expect(second.listBackups()).toHaveLength(1);
  });

  it('cannot be named outside their folder', async () => {
    const casebook = await openedCasebook(temporaryFolder());
    await expect(casebook.restore('../casebook.sqlite')).rejects.toThrow('no backup');
  });
});
