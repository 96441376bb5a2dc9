import { existsSync, renameSync, statSync } from 'node:fs';
import path from 'node:path';
import type Database from 'better-sqlite3';
import { Kysely } from 'kysely';
import type { Backup } from '../../src-core/contract/casebook-view.ts';
import { listBackups, makeBackup, restoreBackup, setAside } from './backup.ts';
import { takeLock, type LockFile } from './lock-file.ts';
import { migrateToLatest, pendingMigrations } from './migrate.ts';
import { openDatabase } from './open-database.ts';
import { CasebookSqliteDialect } from './sqlite-dialect.ts';
import type { Tables } from './tables.ts';

const ONE_DAY_MS = 24 * 60 * 60 * 1000;
/** A lock or file that was not there is looked for again after this long. */
const TRY_AGAIN_MS = 3000;

export type CasebookDb = Kysely<Tables>;

type Opened = {
  readonly db: CasebookDb;
  readonly database: Database.Database;
  /** Which file it is, whatever its name; null in memory. */
  readonly identity: string | null;
};

/** The casebook as a host holds it: open, or unavailable with the reason and the way back. */
export class Casebook {
  readonly file: string;
  readonly backupFolder: string;
  #now: () => Date;
  #opened: Opened | null = null;
  #problem = 'The casebook has not been opened.';
  #lock: LockFile | null = null;
  #daily: NodeJS.Timeout | undefined;
  #isLeftSaved = false;
  #isMissing = false;
  #triedMs = 0;
  #trying: Promise<void> | null = null;

  constructor(file: string, now: () => Date) {
    this.file = file;
    this.backupFolder = path.join(path.dirname(file), 'backups');
    this.#now = now;
  }

  /** Opens file and schema, with a backup first where there is something to lose. Never throws: see `problem`. */
  async open(): Promise<void> {
    try {
      if (this.file !== ':memory:') {
        const taken = takeLock(`${this.file}.lock`);
        if (!taken.ok) {
          this.#problem = `The casebook ${this.file} is in use by another Beadwright (process ${taken.heldBy}). Close that one and start this one again. (If that process is another program, delete ${this.file}.lock.)`;
          return;
        }
        this.#lock = taken.lock;
      }
      await this.#openFile();
    } catch (error) {
      this.#problem = error instanceof Error ? error.message : String(error);
    }
  }

  /** Opens where that failed because another had it; at most every few seconds, as often as it is asked. */
  async tryAgain(): Promise<void> {
    if (this.#opened || this.#lock || this.file === ':memory:') return;
    const nowMs = this.#now().getTime();
    if (!this.#trying && nowMs - this.#triedMs < TRY_AGAIN_MS) return;
    this.#triedMs = nowMs;
    this.#trying ??= this.open().finally(() => (this.#trying = null));
    await this.#trying;
  }

  /**
   * There is none in its place though there was one: begins an empty casebook. The backups of the lost one are set aside in
   * a folder of their own, whose path is returned: backups of the new one would crowd them out in time.
   */
  async beginEmpty(): Promise<string> {
    if (!this.#lock || !this.#isMissing) throw new Error(this.problem);
    setAside(this.file, this.#now());
    const olderBackups = `${this.backupFolder}-until-${this.#now().toISOString().replaceAll(/[:.]/g, '-')}`;
    renameSync(this.backupFolder, olderBackups);
    await this.#openFile();
    if (!this.#opened) throw new Error(this.#problem);
    return olderBackups;
  }

  /** Whether `beginEmpty` is offered. */
  get isMissing(): boolean {
    return this.#isMissing;
  }

  async #openFile(): Promise<void> {
    const lost = this.#lostBackups();
    if (lost > 0) {
      this.#isMissing = true;
      this.#problem = `There is no casebook at ${this.file}, but ${lost} backups of one lie beside it. ${this.#wayBack()} An empty one can be begun there too.`;
      return;
    }
    this.#isMissing = false;
    const opened = openDatabase(this.file);
    if (!opened.ok) {
      this.#problem = `${opened.message} ${this.#wayBack()}`;
      return;
    }
    const db: CasebookDb = new Kysely<Tables>({ dialect: new CasebookSqliteDialect(opened.database) });
    try {
      if (!opened.isNew) await makeBackup(opened.database, this.backupFolder, this.#now());
      if ((await pendingMigrations(db)).length > 0) await migrateToLatest(db);
      this.#opened = { db, database: opened.database, identity: identityOf(this.file) };
      this.#isLeftSaved = false;
      this.#scheduleDailyBackup();
    } catch (error) {
      await db.destroy();
      const reason = error instanceof Error ? error.message : String(error);
      this.#problem = `The casebook ${this.file} could not be brought to today's form: ${reason}. It was left as it was. ${this.#wayBack()}`;
    }
  }

  /** Backups that hold cases, where the casebook itself is gone; 0 where it is there. */
  #lostBackups(): number {
    if (this.file === ':memory:' || existsSync(this.file)) return 0;
    return listBackups(this.backupFolder).filter(({ cases }) => (cases ?? 0) > 0).length;
  }

  #wayBack(): string {
    const newest = listBackups(this.backupFolder).find((backup) => backup.cases !== null);
    return newest
      ? `The newest good backup is ${newest.name} with ${newest.cases} cases; restore it in the settings under Backups or with "beadwright backups restore ${newest.name}".`
      : `There is no backup in ${this.backupFolder}; move the file away to start an empty casebook.`;
  }

  #scheduleDailyBackup(): void {
    if (this.file === ':memory:') return;
    this.#daily = setInterval(() => void this.makeBackup().catch(() => undefined), ONE_DAY_MS);
    this.#daily.unref();
  }

  /**
   * Open, and still the file in its place: what is written to a deleted or replaced one is gone with the process,
   * however well it was written.
   */
  get isOpen(): boolean {
    if (!this.#opened) return false;
    if (this.#opened.identity === identityOf(this.file)) return true;
    this.#saveWhatIsLeft();
    return false;
  }

  /** Why the casebook is unavailable; meaningful while `isOpen` is false. */
  get problem(): string {
    return this.#opened
      ? `The casebook ${this.file} was deleted, moved or replaced while it was in use. Nothing can be kept until it is back. ${this.#wayBack()}`
      : this.#problem;
  }

  /** The lost file can still be read through the open handle: once, as a backup. */
  #saveWhatIsLeft(): void {
    if (this.#isLeftSaved) return;
    this.#isLeftSaved = true;
    void this.makeBackup().catch(() => undefined);
  }

  /** The open database; throws where it is unavailable, so ask `isOpen` at the gate. */
  get db(): CasebookDb {
    if (!this.#opened) throw new Error(this.#problem);
    return this.#opened.db;
  }

  /** Whether this process may put a backup in the casebook's place: not while another one has it. */
  get canRestore(): boolean {
    return this.#lock !== null;
  }

  listBackups(): Backup[] {
    return listBackups(this.backupFolder);
  }

  async makeBackup(): Promise<Backup> {
    if (!this.#opened) throw new Error(this.#problem);
    return makeBackup(this.#opened.database, this.backupFolder, this.#now());
  }

  /** Replaces the casebook by a backup and opens it; the replaced file is kept under the name returned. */
  async restore(name: string): Promise<string> {
    if (!this.#lock) throw new Error(this.#problem);
    await this.#closeFile();
    const keptAs = restoreBackup(this.backupFolder, name, this.file, this.#now());
    await this.#openFile();
    if (!this.#opened) throw new Error(this.#problem);
    return keptAs;
  }

  async #closeFile(): Promise<void> {
    clearInterval(this.#daily);
    await this.#opened?.db.destroy();
    this.#opened = null;
  }

  async close(): Promise<void> {
    await this.#closeFile();
    this.#lock?.release();
    this.#lock = null;
    this.#problem = 'The casebook is closed.';
  }
}

/** Device and number of the file in that place; empty where there is none, null for a casebook in memory. */
function identityOf(file: string): string | null {
  if (file === ':memory:') return null;
  const found = statSync(file, { bigint: true, throwIfNoEntry: false });
  return found ? `${found.dev}:${found.ino}` : '';
}
