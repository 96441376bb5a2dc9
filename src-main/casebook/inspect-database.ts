import { casebookTrouble } from '../../src-core/words/en/casebook-trouble.ts';
import type { Message } from '../../src-core/words/message.ts';
import { closeSync, existsSync, openSync, readFileSync, readSync, statSync, writeSync } from 'node:fs';
import Database from 'better-sqlite3';
import { unknownMigrations } from './migrate.ts';

/** What a casebook's file holds, as far as can be told without opening it for work. */
export type Inspection =
  | { readonly ok: true; readonly cases: number; readonly isNewer: boolean }
  | { readonly ok: false; readonly fault: string | Message };

/** Bytes 18 and 19 of a database: 1 for a rollback journal, 2 for a write-ahead log. */
const JOURNAL_BYTES_AT = 18;
/** Up to here a file that may not be written is read into memory instead. */
const LARGEST_IN_MEMORY_BYTES = 512 * 1024 * 1024;

/**
 * Opens a finished copy of a casebook, counts its cases, and where `isThorough` lets SQLite check every page. Leaves no
 * journal files beside it, and works in a folder that may not be written.
 */
export function inspectCopy(file: string, isThorough: boolean): Inspection {
  let database: Database.Database | undefined;
  try {
    if (statSync(file).size === 0) return { ok: false, fault: casebookTrouble.empty() };
    database = openCopy(file);
    return inspect(database, isThorough);
  } catch (error) {
    return { ok: false, fault: error instanceof Error ? error.message : String(error) };
  } finally {
    database?.close();
  }
}

/** The same of an open database. */
export function inspect(database: Database.Database, isThorough: boolean): Inspection {
  if (isThorough) {
    const verdict: unknown = database.pragma('quick_check(1)', { simple: true });
    if (verdict !== 'ok') return { ok: false, fault: casebookTrouble.ownCheck({ verdict: String(verdict) }) };
  }
  const row = database.prepare<[], { count: number }>('select count(*) as count from cases').get();
  const unknown = unknownMigrations(database).kind;
  if (unknown === 'unreadable') return { ok: false, fault: casebookTrouble.listDamaged() };
  return { ok: true, cases: row?.count ?? 0, isNewer: unknown === 'newer' };
}

/**
 * A file that says it has a write-ahead log cannot be opened without leaving files beside it, or at all where nothing may
 * be written. A backup has none: its header is set right, on the disk or in memory.
 */
function openCopy(file: string): Database.Database {
  const hasLog = existsSync(`${file}-wal`) && statSync(`${file}-wal`).size > 0;
  if (hasLog || !saysWriteAheadLog(file)) return new Database(file, { readonly: true });
  try {
    const handle = openSync(file, 'r+');
    try {
      writeSync(handle, Uint8Array.of(1, 1), 0, 2, JOURNAL_BYTES_AT);
    } finally {
      closeSync(handle);
    }
    return new Database(file, { readonly: true });
  } catch (error) {
    if (statSync(file).size > LARGEST_IN_MEMORY_BYTES) throw error;
    const bytes = readFileSync(file);
    bytes.set([1, 1], JOURNAL_BYTES_AT);
    return new Database(bytes, { readonly: true });
  }
}

function saysWriteAheadLog(file: string): boolean {
  const handle = openSync(file, 'r');
  try {
    const bytes = new Uint8Array(2);
    readSync(handle, bytes, 0, 2, JOURNAL_BYTES_AT);
    return bytes[0] === 2 || bytes[1] === 2;
  } finally {
    closeSync(handle);
  }
}
