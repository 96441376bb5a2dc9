import { casebookTrouble } from '../../../src-core/words/en/casebook-trouble.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { closeSync, openSync, readdirSync, readSync, statSync } from 'node:fs';
import path from 'node:path';
import type { Dumps } from '../../../src-core/contract/casebook-view.ts';

/** Nobody should lose more than two days' work to a broken disk. */
const OLDEST_MS = 48 * 3_600_000;
/** What a dump's name ends in where it is packed or locked, and cannot be looked into. */
const PACKED = /\.(dump|sql)\.\w+$/;

/** The newest dump of a folder, by when it was written; null where there is none. Throws where the folder cannot be read. */
export function newestDump(folder: string): NonNullable<Dumps['newest']> | null {
  const dumps = readdirSync(folder).flatMap((name) => {
    const found = dumpOf(path.join(folder, name));
    return found ? [{ name, ...found }] : [];
  });
  const newest = dumps.sort((a, b) => b.writtenMs - a.writtenMs)[0];
  return newest
    ? { name: newest.name, at: new Date(newest.writtenMs).toISOString(), bytes: newest.bytes }
    : null;
}

/** What should be seen to about the dumps of a folder; null where all is well. */
export function dumpWarning(folder: string, now: Date): Message | null {
  let newest: Dumps['newest'];
  try {
    newest = newestDump(folder);
  } catch (error) {
    return casebookTrouble.dumpFolder({
      folder,
      why: error instanceof Error ? error.message : String(error),
    });
  }
  if (!newest) return casebookTrouble.noDump({ folder });
  const ageMs = now.getTime() - Date.parse(newest.at);
  if (ageMs <= OLDEST_MS) return null;
  return casebookTrouble.dumpOld({ folder, count: Math.floor(ageMs / 86_400_000) });
}

/** A file, or a folder of `pg_dump --format=directory`, that is a dump as far as its beginning says. */
function dumpOf(file: string): { readonly writtenMs: number; readonly bytes: number } | null {
  try {
    const { mtimeMs, size, isFolder } = statOf(file);
    if (isFolder) {
      const contents = statSync(path.join(file, 'toc.dat'));
      return { writtenMs: contents.mtimeMs, bytes: contents.size };
    }
    return isDump(file) ? { writtenMs: mtimeMs, bytes: size } : null;
  } catch {
    // No dump, or gone between looking and reading.
    return null;
  }
}

function statOf(file: string) {
  const found = statSync(file);
  return { mtimeMs: found.mtimeMs, size: found.size, isFolder: found.isDirectory() };
}

function isDump(file: string): boolean {
  if (file.endsWith('.part')) return false;
  const start = Buffer.alloc(64);
  const handle = openSync(file, 'r');
  try {
    readSync(handle, start, 0, start.length, 0);
  } finally {
    closeSync(handle);
  }
  const words = start.toString('latin1');
  if (words.startsWith('PGDMP') || words.includes('PostgreSQL database dump')) return true;
  return PACKED.test(file) && words.charCodeAt(0) !== 0;
}
