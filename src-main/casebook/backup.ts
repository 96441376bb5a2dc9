import { casebookTrouble } from '../../src-core/words/en/casebook-trouble.ts';
import { existsSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import type { Backup } from '../../src-core/contract/casebook-view.ts';
import { keptBackups } from './backup-tiers.ts';
import { inspectCopy } from './inspect-database.ts';
import { closeFolderToOthers, makePrivateFolder, makePrivateIfThere, syncToDisk } from './private-files.ts';
import { SaidError } from '../../src-core/words/said-error.ts';

/** Larger backups are checked page by page only when they are made and when they are restored: it takes seconds each. */
const LARGEST_CHECKED_IN_LIST_BYTES = 32 * 1024 * 1024;

/** What was found in a backup, by file, size and time: each is looked at once a process. */
const found = new Map<string, number | null>();

/**
 * Copies the live casebook with SQLite's online backup, so that a running case is no obstacle, opens the copy and lets
 * SQLite check every page of it. Only then does it count as a backup, and only then do older ones go (`keptBackups`).
 * Throws where that did not work; then everything in the folder is as it was.
 */
export async function makeBackup(database: Database.Database, folder: string, at: Date): Promise<Backup> {
  makePrivateFolder(folder);
  closeFolderToOthers(folder);
  const name = freeName(folder, at);
  const finished = path.join(folder, name);
  const unfinished = `${finished}.part`;
  try {
    await database.backup(unfinished);
    makePrivateIfThere(unfinished);
    withoutLog(unfinished);
    const inspection = inspectCopy(unfinished, true);
    if (!inspection.ok) throw new SaidError(casebookTrouble.copyNotGood({ why: inspection.fault }));
    syncToDisk(unfinished);
    renameSync(unfinished, finished);
    syncToDisk(folder, true);
  } catch (error) {
    for (const ending of ['', '-wal', '-shm', '-journal']) rmSync(unfinished + ending, { force: true });
    throw error;
  }
  removeOlder(folder, name, at);
  return describeBackup(folder, name);
}

/** When the newest backup was made that is not of a time still to come; null where there is none. */
export function newestBackupMs(folder: string, now: Date): number | null {
  const times = backupNames(folder)
    .map((name) => Date.parse(timeInName(name) ?? ''))
    .filter((ms) => ms <= now.getTime());
  return times.length > 0 ? Math.max(...times) : null;
}

function removeOlder(folder: string, justMade: string, now: Date): void {
  const all = backupNames(folder).map((name) => {
    const file = path.join(folder, name);
    const inspection = inspectCopy(file, false);
    const at = timeInName(name) ?? statSync(file).mtime.toISOString();
    return { name, at, cases: inspection.ok ? inspection.cases : null };
  });
  const kept = keptBackups(all, now, justMade);
  // What cannot be read may still be of use to somebody, and takes no good one's place.
  for (const { name, cases } of all)
    if (cases !== null && !kept.has(name)) rmSync(path.join(folder, name), { force: true });
}

/** All backups, newest first. One that SQLite finds damaged has `cases` null. */
export function listBackups(folder: string): Backup[] {
  return backupNames(folder).flatMap((name) => {
    try {
      return [describeBackup(folder, name)];
    } catch {
      // Gone between looking and reading.
      return [];
    }
  });
}

/** Unfinished copies and journal files without a backup, left by a process that was killed: nobody else writes here. */
export function clearLitter(folder: string): void {
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder)) {
    if (!name.startsWith('casebook-')) continue;
    const file = path.join(folder, name);
    const isJournal = /\.sqlite-(wal|shm)$/.test(name);
    // A log with something in it belongs to a backup that somebody opened and wrote to.
    const isOfUse = isJournal && existsSync(file.replace(/-(wal|shm)$/, '')) && sizeOf(walOf(file)) > 0;
    if ((isJournal && !isOfUse) || /\.sqlite\.part(-\w+)?$/.test(name)) rmSync(file, { force: true });
    else makePrivateIfThere(file);
  }
}

/** 2026-11-25T09-30-00-123Z: sortable, and safe in file names everywhere. */
export function stamp(at: Date): string {
  return at.toISOString().replaceAll(':', '-').replace('.', '-');
}

function backupNames(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => /^casebook-.*\.sqlite$/.test(name))
    .sort()
    .reverse();
}

/** A name by the time; a clock gone back must not write over a backup of that very moment. */
function freeName(folder: string, at: Date): string {
  for (let more = 0; ; more++) {
    const name = `casebook-${stamp(new Date(at.getTime() + more))}.sqlite`;
    if (!existsSync(path.join(folder, name))) return name;
  }
}

function describeBackup(folder: string, name: string): Backup {
  const file = path.join(folder, name);
  const { size, mtime, mtimeMs } = statSync(file);
  const key = `${file}|${size}|${mtimeMs}`;
  if (!found.has(key)) {
    const inspection = inspectCopy(file, size <= LARGEST_CHECKED_IN_LIST_BYTES);
    const { mtimeMs: after } = statSync(file);
    found.set(`${file}|${size}|${after}`, inspection.ok ? inspection.cases : null);
    if (after !== mtimeMs) return describeBackup(folder, name);
  }
  // A copied file has a new time of its own; the name keeps when the backup was made.
  return { name, at: timeInName(name) ?? mtime.toISOString(), bytes: size, cases: found.get(key) ?? null };
}

/** A copy is one file: with a log it could not be opened where nothing may be written. */
function withoutLog(file: string): void {
  const copy = new Database(file);
  try {
    copy.pragma('journal_mode = DELETE');
  } finally {
    copy.close();
  }
}

function walOf(journal: string): string {
  return journal.replace(/-shm$/, '-wal');
}

function sizeOf(file: string): number {
  return statSync(file, { throwIfNoEntry: false })?.size ?? 0;
}

/** The time that `stamp` put into a backup's name, or null in a name of another make. */
function timeInName(name: string): string | null {
  const parts = /(\d{4}-\d{2}-\d{2})T(\d{2})-(\d{2})-(\d{2})-(\d{3})Z/.exec(name);
  const time = parts ? `${parts[1]}T${parts[2]}:${parts[3]}:${parts[4]}.${parts[5]}Z` : null;
  return time === null || Number.isNaN(Date.parse(time)) ? null : time;
}
