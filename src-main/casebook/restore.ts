import { casebookTrouble } from '../../src-core/words/en/casebook-trouble.ts';
import { refusals } from '../../src-core/words/en/refusals.ts';
import { copyFileSync, existsSync, readdirSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import { stamp } from './backup.ts';
import { inspectCopy } from './inspect-database.ts';
import { makePrivateIfThere, syncToDisk } from './private-files.ts';
import { SaidError } from '../../src-core/words/said-error.ts';

const ENDINGS = ['', '-wal', '-shm'] as const;

/**
 * First half of a restore: a checked copy of the backup beside the casebook, on the disk. Nothing of the casebook is
 * touched; throws where the backup is not good or there is no room for the copy.
 */
export function copyForRestore(folder: string, name: string, casebookFile: string): void {
  const backup = path.join(folder, name);
  if (path.dirname(path.resolve(backup)) !== path.resolve(folder) || !existsSync(backup)) {
    throw new SaidError(refusals.noSuchBackup({ name, folder }));
  }
  const unfinished = `${casebookFile}.part`;
  try {
    copyFileSync(backup, unfinished);
    makePrivateIfThere(unfinished);
    const inspection = inspectCopy(unfinished, true);
    if (!inspection.ok) throw new SaidError(casebookTrouble.backupNotGood({ name, why: inspection.fault }));
    if (inspection.isNewer) throw new SaidError(casebookTrouble.backupNewer({ name }));
    syncToDisk(unfinished);
    renameSync(unfinished, readyFile(casebookFile));
  } catch (error) {
    for (const ending of ENDINGS) rmSync(unfinished + ending, { force: true });
    throw error;
  }
}

/**
 * Second half: what is there is moved aside with its journal files, and the copy takes its place. Returns the name that
 * the old one is kept under, or "nothing" where there was none. The database must be closed. Where it fails, all is
 * moved back; where the process dies in between, `finishRestore` ends it on the next start.
 */
export function swapIn(casebookFile: string, at: Date): string {
  const aside = setAside(casebookFile, at);
  try {
    renameSync(readyFile(casebookFile), casebookFile);
  } catch (error) {
    putBack(casebookFile, aside);
    throw error;
  }
  syncToDisk(path.dirname(casebookFile), true);
  return aside ?? 'nothing';
}

/** Takes a swap back: the restored file goes, what was there before returns. */
export function swapBack(casebookFile: string, keptAs: string): void {
  for (const ending of ENDINGS) rmSync(casebookFile + ending, { force: true });
  putBack(casebookFile, keptAs === 'nothing' ? null : keptAs);
}

/** Ends a restore that a kill cut short: with the new file where the old one was moved away, with the old one before. */
export function finishRestore(casebookFile: string, at: Date): void {
  rmSync(`${casebookFile}.part`, { force: true });
  const ready = readyFile(casebookFile);
  if (!existsSync(ready)) return;
  if (existsSync(casebookFile)) {
    rmSync(ready, { force: true });
    return;
  }
  // The casebook itself is moved first, so its journal files may still be here: they belong to the one moved last.
  const old = setAsideNames(casebookFile)[0];
  for (const ending of ENDINGS)
    if (old && existsSync(casebookFile + ending)) renameSync(casebookFile + ending, old + ending);
  if (!old) setAside(casebookFile, at);
  renameSync(ready, casebookFile);
}

/** Casebooks that were moved aside and lie beside this one, newest first. */
export function setAsideNames(casebookFile: string): string[] {
  const folder = path.dirname(casebookFile);
  if (!existsSync(folder)) return [];
  const start = `${path.basename(casebookFile)}.before-restore-`;
  return readdirSync(folder)
    .filter((name) => name.startsWith(start) && !/-(wal|shm)$/.test(name))
    .sort()
    .reverse()
    .map((name) => path.join(folder, name));
}

/** Moves a casebook and its journal files away; a journal left behind would be taken for the next one's. */
export function setAside(casebookFile: string, at: Date): string | null {
  let name = `${casebookFile}.before-restore-${stamp(at)}`;
  for (let more = 2; existsSync(name); more++) name = `${casebookFile}.before-restore-${stamp(at)}-${more}`;
  const moved: string[] = [];
  try {
    for (const ending of ENDINGS) {
      if (!existsSync(casebookFile + ending)) continue;
      renameSync(casebookFile + ending, name + ending);
      moved.push(ending);
    }
  } catch (error) {
    for (const ending of moved) renameSync(name + ending, casebookFile + ending);
    throw error;
  }
  return moved.length > 0 ? name : null;
}

function putBack(casebookFile: string, aside: string | null): void {
  if (aside === null) return;
  for (const ending of ENDINGS)
    if (existsSync(aside + ending)) renameSync(aside + ending, casebookFile + ending);
}

/** A copy that is whole and checked; never this name before it is. */
function readyFile(casebookFile: string): string {
  return `${casebookFile}.restoring`;
}
