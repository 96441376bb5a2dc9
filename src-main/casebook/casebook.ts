import path from 'node:path';
import type Database from 'better-sqlite3';
import { Kysely } from 'kysely';
import type { Backup } from '../../src-core/contract/casebook-view.ts';
import { listBackups, makeBackup, restoreBackup } from './backup.ts';
import { takeLock, type LockFile } from './lock-file.ts';
import { migrateToLatest, pendingMigrations } from './migrate.ts';
import { openDatabase } from './open-database.ts';
import { CasebookSqliteDialect } from './sqlite-dialect.ts';
import type { Tables } from './tables.ts';

const ONE_DAY_MS = 24 * 60 * 60 * 1000;

export type CasebookDb = Kysely<Tables>;

type Opened = { readonly db: CasebookDb; readonly database: Database.Database };

/** The casebook as a host holds it: open, or unavailable with the reason and the way back. */
export class Casebook {
  readonly file: string;
  readonly backupFolder: string;
  #now: () => Date;
  #opened: Opened | null = null;
  #problem = 'The casebook has not been opened.';
  #lock: LockFile | null = null;
  #daily: NodeJS.Timeout | undefined;

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
          this.#problem = `The casebook ${this.file} is in use by another Beadwright (process ${taken.heldBy}). Close that one first.`;
          return;
        }
        this.#lock = taken.lock;
      }
      await this.#openFile();
    } catch (error) {
      this.#problem = error instanceof Error ? error.message : String(error);
    }
  }

  async #openFile(): Promise<void> {
    const opened = openDatabase(this.file);
    if (!opened.ok) {
      this.#problem = `${opened.message} ${this.#wayBack()}`;
      return;
    }
    const db: CasebookDb = new Kysely<Tables>({ dialect: new CasebookSqliteDialect(opened.database) });
    try {
      if (!opened.isNew) await makeBackup(opened.database, this.backupFolder, this.#now());
      if ((await pendingMigrations(db)).length > 0) await migrateToLatest(db);
      this.#opened = { db, database: opened.database };
      this.#scheduleDailyBackup();
    } catch (error) {
      await db.destroy();
      const reason = error instanceof Error ? error.message : String(error);
      this.#problem = `The casebook ${this.file} could not be brought to today's form: ${reason}. It was left as it was. ${this.#wayBack()}`;
    }
  }

  #wayBack(): string {
    const newest = listBackups(this.backupFolder).find((backup) => backup.cases !== null);
    return newest
      ? `The newest good backup is ${newest.name} with ${newest.cases} cases; restore it under Backups or with "beadwright backups restore ${newest.name}".`
      : `There is no backup in ${this.backupFolder}; move the file away to start an empty casebook.`;
  }

  #scheduleDailyBackup(): void {
    if (this.file === ':memory:') return;
    this.#daily = setInterval(() => void this.makeBackup().catch(() => undefined), ONE_DAY_MS);
    this.#daily.unref();
  }

  get isOpen(): boolean {
    return this.#opened !== null;
  }

  /** Why the casebook is unavailable; meaningful while `isOpen` is false. */
  get problem(): string {
    return this.#problem;
  }

  /** The open database; throws where it is unavailable, so ask `isOpen` at the gate. */
  get db(): CasebookDb {
    if (!this.#opened) throw new Error(this.#problem);
    return this.#opened.db;
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
