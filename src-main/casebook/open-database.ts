import { closeSync, openSync, readSync, statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { fileTrouble, type TroubleKind } from './file-trouble.ts';
import { framesPromised, isLogCutShort } from './journal-check.ts';
import { DAMAGED_LIST, unknownMigrations, writtenByNewer } from './migrate.ts';
import { makePrivateIfThere } from './private-files.ts';

export type OpenTrouble = TroubleKind | 'empty' | 'newer';
export type OpenedDatabase =
  | {
      readonly ok: true;
      readonly database: Database.Database;
      /** The log of writes was damaged: what was entered last before the end may be missing. */
      readonly isLogCutShort: boolean;
    }
  | { readonly ok: false; readonly trouble: OpenTrouble; readonly message: string };

const MAGIC = 'SQLite format 3\0';

/**
 * Opens the casebook file for reading and writing. An acknowledged answer is on disk: WAL with synchronous FULL. A file
 * that is empty, damaged, no casebook, of a newer version or not to be written is left exactly as it is and reported.
 */
export function openDatabase(file: string): OpenedDatabase {
  let database: Database.Database | undefined;
  try {
    if (file !== ':memory:') {
      const trouble = troubleAtFirstSight(file);
      if (trouble) return trouble;
    }
    const promised = file === ':memory:' ? 0 : framesPromised(file);
    database = new Database(file, { timeout: 5000 });
    const unknown = unknownMigrations(database);
    if (unknown.kind === 'newer') {
      database.close();
      return {
        ok: false,
        trouble: 'newer',
        message: writtenByNewer(file, unknown.names),
      };
    }
    const verdict: unknown = database.pragma('quick_check(1)', { simple: true });
    if (verdict !== 'ok' || unknown.kind === 'unreadable') {
      database.close();
      const words = verdict === 'ok' ? DAMAGED_LIST : `its own check says "${String(verdict)}"`;
      return damaged(file, words);
    }
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = FULL');
    database.pragma('foreign_keys = ON');
    // A file that may only be read opens all the same, and would fail at the first answer.
    database.exec('begin immediate');
    database.pragma('user_version = 0');
    database.exec('rollback');
    makePrivateIfThere(file);
    return { ok: true, database, isLogCutShort: isLogCutShort(database, promised) };
  } catch (error) {
    database?.close();
    return failure(file, error);
  }
}

/** What an error while opening means, and the way on. None of the ways moves or replaces anything. */
export function failure(file: string, error: unknown): Extract<OpenedDatabase, { ok: false }> {
  const { kind, words } = fileTrouble(error);
  if (kind === 'damaged') return damaged(file, words);
  const wayOn = {
    full: 'Make room on that disk and try again; what is in the casebook is still there.',
    'not-writable':
      'Give this user the right to write there, or start Beadwright as the one who has it; what is in the casebook is still there.',
    'in-use': 'Close the other program and try again.',
    other: 'The casebook was left untouched.',
  }[kind];
  return {
    ok: false,
    trouble: kind,
    message: `The casebook ${file} cannot be opened: ${words}. ${wayOn}`,
  };
}

/** What size and first bytes tell before SQLite sees the file: it takes an empty one for new. */
function troubleAtFirstSight(file: string): Extract<OpenedDatabase, { ok: false }> | null {
  const size = statSync(file, { throwIfNoEntry: false })?.size;
  if (size === undefined) return null;
  if (size === 0) {
    return {
      ok: false,
      trouble: 'empty',
      message: `The casebook ${file} is empty (0 bytes): something cut it off. It was left untouched.`,
    };
  }
  const first = Buffer.alloc(MAGIC.length);
  const handle = openSync(file, 'r');
  try {
    readSync(handle, first, 0, first.length, 0);
  } finally {
    closeSync(handle);
  }
  return first.toString('latin1') === MAGIC ? null : damaged(file, 'what is in it is no casebook');
}

function damaged(file: string, words: string): Extract<OpenedDatabase, { ok: false }> {
  return {
    ok: false,
    trouble: 'damaged',
    message: `The casebook ${file} cannot be read: ${words}. It was left untouched.`,
  };
}
