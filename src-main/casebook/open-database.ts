import { casebookTrouble } from '../../src-core/words/en/casebook-trouble.ts';
import type { Message } from '../../src-core/words/message.ts';
import { closeSync, openSync, readSync, statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { fileTrouble, type TroubleKind } from './file-trouble.ts';
import { framesPromised, isLogCutShort } from './journal-check.ts';
import { unknownMigrations } from './migrate.ts';
import { makePrivateIfThere } from './private-files.ts';

export type OpenTrouble = TroubleKind | 'empty' | 'newer';
export type OpenedDatabase =
  | {
      readonly ok: true;
      readonly database: Database.Database;
      /** The log of writes was damaged: what was entered last before the end may be missing. */
      readonly isLogCutShort: boolean;
    }
  | { readonly ok: false; readonly trouble: OpenTrouble; readonly said: readonly Message[] };

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
        said: [casebookTrouble.newer({ file, names: unknown.names })],
      };
    }
    const verdict: unknown = database.pragma('quick_check(1)', { simple: true });
    if (verdict !== 'ok' || unknown.kind === 'unreadable') {
      database.close();
      return damaged(
        file,
        verdict === 'ok'
          ? casebookTrouble.listDamaged()
          : casebookTrouble.ownCheck({ verdict: String(verdict) }),
      );
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
  const { kind, why } = fileTrouble(error);
  if (kind === 'damaged') return damaged(file, why);
  const wayOn = {
    full: casebookTrouble.makeRoom,
    'not-writable': casebookTrouble.giveRight,
    'in-use': casebookTrouble.closeTheOther,
    other: casebookTrouble.leftUntouched,
  }[kind];
  return {
    ok: false,
    trouble: kind,
    said: [casebookTrouble.cannotBeOpened({ file, why }), wayOn()],
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
      said: [casebookTrouble.cutOff({ file })],
    };
  }
  const first = Buffer.alloc(MAGIC.length);
  const handle = openSync(file, 'r');
  try {
    readSync(handle, first, 0, first.length, 0);
  } finally {
    closeSync(handle);
  }
  return first.toString('latin1') === MAGIC ? null : damaged(file, casebookTrouble.noCasebook());
}

function damaged(file: string, why: string | Message): Extract<OpenedDatabase, { ok: false }> {
  return {
    ok: false,
    trouble: 'damaged',
    said: [casebookTrouble.cannotBeRead({ file, why })],
  };
}
