import { existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';

export type OpenedDatabase =
  | { readonly ok: true; readonly database: Database.Database; readonly isNew: boolean }
  | { readonly ok: false; readonly message: string };

/**
 * Opens the casebook file for reading and writing, creating it where there is none.
 * An acknowledged answer is on disk: WAL with synchronous FULL. A file that is damaged or no database is left
 * exactly as it is and reported.
 */
export function openDatabase(file: string): OpenedDatabase {
  const isNew = file === ':memory:' || !existsSync(file);
  if (file !== ':memory:') mkdirSync(path.dirname(file), { recursive: true });
  let database: Database.Database | undefined;
  try {
    database = new Database(file);
    database.pragma('busy_timeout = 5000');
    const verdict: unknown = database.pragma('quick_check(1)', { simple: true });
    if (verdict !== 'ok') throw new Error(`its own check says "${String(verdict)}"`);
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = FULL');
    database.pragma('foreign_keys = ON');
    return { ok: true, database, isNew };
  } catch (error) {
    database?.close();
    const reason = error instanceof Error ? error.message : String(error);
    return { ok: false, message: `The casebook ${file} cannot be read: ${reason}. It was left untouched.` };
  }
}
