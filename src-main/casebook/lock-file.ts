import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { codeOf } from './file-trouble.ts';
import { makePrivateFolder, makePrivateIfThere } from './private-files.ts';
import path from 'node:path';

/** Held while one process writes the casebook; SQLite alone does not keep a second host out. */
export interface LockFile {
  release(): void;
}

export type LockTaken =
  { readonly ok: true; readonly lock: LockFile } | { readonly ok: false; readonly heldBy: number | null };

/**
 * Takes the lock or names the process that holds it, where it has said so.
 *
 * The lock is SQLite's own exclusive lock on an empty database: the operating system takes it back with the process
 * however that ends, so neither a number that another program got meanwhile nor a lock file left empty by a full disk
 * can keep anybody out. The file stays when the lock is released: removing it would let two take it at once.
 */
export function takeLock(file: string): LockTaken {
  makePrivateFolder(path.dirname(file));
  let database = openLock(file);
  if (database === 'other-contents') {
    // What an earlier version left there: the number of its process as text.
    writeFileSync(file, '');
    database = openLock(file);
  }
  if (database === 'held' || database === 'other-contents') return { ok: false, heldBy: holderOf(file) };
  const held = database;
  makePrivateIfThere(file);
  try {
    writeFileSync(holderFile(file), String(process.pid), { mode: 0o600 });
  } catch {
    // On a full disk the lock holds all the same; it only does not say by whom.
  }
  return {
    ok: true,
    lock: {
      release: () => {
        rmSync(holderFile(file), { force: true });
        held.close();
      },
    },
  };
}

function openLock(file: string): Database.Database | 'held' | 'other-contents' {
  const database = new Database(file, { timeout: 0 });
  try {
    database.pragma('journal_mode = MEMORY');
    database.exec('begin exclusive');
    return database;
  } catch (error) {
    database.close();
    if (codeOf(error).startsWith('SQLITE_BUSY')) return 'held';
    if (codeOf(error) === 'SQLITE_NOTADB') return 'other-contents';
    throw error;
  }
}

function holderFile(file: string): string {
  return `${file}-holder`;
}

function holderOf(file: string): number | null {
  try {
    const pid = Number.parseInt(readFileSync(holderFile(file), 'utf8'), 10);
    return Number.isInteger(pid) && pid > 0 ? pid : null;
  } catch {
    return null;
  }
}
