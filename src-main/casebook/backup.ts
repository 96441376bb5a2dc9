import { copyFileSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import type { Backup } from '../../src-core/contract/casebook-view.ts';

/** Backups kept; the oldest go first. */
const KEPT_BACKUPS = 40;

/** Copies the live casebook with SQLite's online backup, so that a running case is no obstacle, and checks the copy. */
export async function makeBackup(database: Database.Database, folder: string, at: Date): Promise<Backup> {
  mkdirSync(folder, { recursive: true });
  const name = `casebook-${stamp(at)}.sqlite`;
  const finished = path.join(folder, name);
  const unfinished = `${finished}.part`;
  await database.backup(unfinished);
  renameSync(unfinished, finished);
  for (const old of backupNames(folder).slice(KEPT_BACKUPS)) rmSync(path.join(folder, old), { force: true });
  return describeBackup(folder, name);
}

/** All backups, newest first. */
export function listBackups(folder: string): Backup[] {
  return backupNames(folder).map((name) => describeBackup(folder, name));
}

/**
 * Puts a backup in the casebook's place. What was there, damaged or not, is kept beside it under a new name with its
 * journal files; returns that name, or "nothing" where there was no file. The database must be closed.
 */
export function restoreBackup(folder: string, name: string, casebookFile: string, at: Date): string {
  const backup = path.join(folder, name);
  if (path.dirname(path.resolve(backup)) !== path.resolve(folder) || !existsSync(backup)) {
    throw new Error(`there is no backup "${name}" in ${folder}`);
  }
  const keptAs = setAside(casebookFile, at);
  const unfinished = `${casebookFile}.part`;
  copyFileSync(backup, unfinished);
  renameSync(unfinished, casebookFile);
  return keptAs;
}

/** Moves a casebook and its journal files away; a journal left behind would be taken for the next one's. */
export function setAside(casebookFile: string, at: Date): string {
  const name = `${casebookFile}.before-restore-${stamp(at)}`;
  const endings = ['', '-wal', '-shm'].filter((ending) => existsSync(casebookFile + ending));
  for (const ending of endings) renameSync(casebookFile + ending, name + ending);
  return endings.length > 0 ? name : 'nothing';
}

function backupNames(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => /^casebook-.*\.sqlite$/.test(name))
    .sort()
    .reverse();
}

function describeBackup(folder: string, name: string): Backup {
  const file = path.join(folder, name);
  const { size, mtime } = statSync(file);
  // A copied file has a new time of its own; the name keeps when the backup was made.
  return { name, at: timeInName(name) ?? mtime.toISOString(), bytes: size, cases: countCases(file) };
}

/** Number of cases in a backup, or null when it cannot be read. */
function countCases(file: string): number | null {
  let database: Database.Database | undefined;
  try {
    database = new Database(file, { readonly: true });
    const row = database.prepare<[], { count: number }>('select count(*) as count from cases').get();
    return row?.count ?? null;
  } catch {
    return null;
  } finally {
    database?.close();
  }
}

/** 2026-11-25T09-30-00-123Z: sortable, and safe in file names everywhere. */
function stamp(at: Date): string {
  return at.toISOString().replaceAll(':', '-').replace('.', '-');
}

/** The time that `stamp` put into a backup's name, or null in a name of another make. */
function timeInName(name: string): string | null {
  const parts = /(\d{4}-\d{2}-\d{2})T(\d{2})-(\d{2})-(\d{2})-(\d{3})Z/.exec(name);
  return parts ? `${parts[1]}T${parts[2]}:${parts[3]}:${parts[4]}.${parts[5]}Z` : null;
}
