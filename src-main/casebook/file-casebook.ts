import { casebookTrouble } from '../../src-core/words/en/casebook-trouble.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import type { Message } from '../../src-core/words/message.ts';
import { existsSync, renameSync, rmSync, statSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { Kysely } from 'kysely';
import type { Backup } from '../../src-core/contract/casebook-view.ts';
import type { Change } from '../../src-core/contract/change.ts';
import { clearLitter, listBackups, makeBackup, newestBackupMs, stamp } from './backup.ts';
import type { Casebook, CasebookDb, CasebookTrouble, FileUpkeep } from './casebook.ts';
import { fileTrouble } from './file-trouble.ts';
import { takeLock, type LockFile } from './lock-file.ts';
import { migrateToLatest, migrationsTelling, missingTables, pendingMigrations } from './migrate.ts';
import { failure, openDatabase, type OpenTrouble } from './open-database.ts';
import { PhotoFolder } from './photo-folder.ts';
import { makePrivateIfThere, syncToDisk } from './private-files.ts';
import { copyForRestore, finishRestore, setAside, setAsideNames, swapBack, swapIn } from './restore.ts';
import { SaidError } from '../../src-core/words/said-error.ts';
import { CasebookSqliteDialect } from './sqlite-dialect.ts';
import type { Tables } from './tables.ts';

const ONE_HOUR_MS = 60 * 60 * 1000;
/** A lock or file that was not there is looked for again after this long. */
const TRY_AGAIN_MS = 3000;

type Opened = {
  readonly db: CasebookDb;
  readonly database: Database.Database;
  /** Which file it is, whatever its name; null in memory. */
  readonly identity: string | null;
};

export interface CasebookOptions {
  /** Backups at the start and every hour that something is written. Not where a command only reads. */
  readonly makesBackups?: boolean;
  /** How far the casebook is brought to today's form, 0 to 1: with very many cases that takes minutes, once. */
  readonly onMigrating?: (share: number) => void;
  /** What happens to it while it is in use, in words: a database that goes away and comes back. */
  readonly log?: (words: string) => void;
}

/** A casebook in a file, or in memory for tests: one process has it, and looks after its backups. */
export class FileCasebook implements Casebook, FileUpkeep {
  readonly file: string;
  readonly backupFolder: string;
  readonly photos: PhotoFolder;
  readonly upkeep = this;
  readonly dumps = null;
  readonly #makesBackups: boolean;
  readonly #onMigrating: (share: number) => void;
  #now: () => Date;
  #opened: Opened | null = null;
  #problem: readonly Message[] = [casebookTrouble.notOpened()];
  #trouble: OpenTrouble | 'missing' | null = null;
  /** Of backups: gone once one is made. */
  #warning: readonly Message[] = [];
  /** Of the start: stays while the program runs. */
  #loss: readonly Message[] = [];
  #lock: LockFile | null = null;
  #hourly: NodeJS.Timeout | undefined;
  #savedChanges = 0;
  #isLeftSaved = false;
  #triedMs = 0;
  #trying: Promise<void> | null = null;
  #isRestoring = false;
  /** Backups, restores and closing come one after the other. */
  #last: Promise<unknown> = Promise.resolve();

  constructor(file: string, now: () => Date, options: CasebookOptions = {}) {
    this.file = file;
    this.backupFolder = path.join(path.dirname(file), 'backups');
    this.photos = new PhotoFolder(file, this.backupFolder);
    this.#now = now;
    this.#makesBackups = options.makesBackups ?? true;
    this.#onMigrating = options.onMigrating ?? (() => undefined);
  }

  get place(): string {
    return this.file;
  }

  /** Opens file and schema, with a backup where one is due. Never throws: see `problem`. */
  async open(): Promise<void> {
    try {
      if (this.file !== ':memory:' && !this.#lock) {
        const taken = takeLock(`${this.file}.lock`);
        if (!taken.ok) {
          this.#trouble = 'in-use';
          const { file } = this;
          this.#problem = [
            taken.heldBy === null
              ? casebookTrouble.inUse({ file })
              : casebookTrouble.inUseBy({ file, process: taken.heldBy }),
          ];
          return;
        }
        this.#lock = taken.lock;
        finishRestore(this.file, this.#now());
        this.#clearLitter();
      }
      await this.#openFile();
    } catch (error) {
      this.#fail(failure(this.file, error));
    }
  }

  /**
   * Opens where that failed for a reason that passes (another had it, the disk was full, it might not be written); at most
   * every few seconds, as often as it is asked.
   */
  async tryAgain(): Promise<void> {
    if (this.#opened || this.#isRestoring || this.file === ':memory:') return;
    if (this.#lock && !['full', 'not-writable', 'in-use', 'other'].includes(this.#trouble ?? '')) return;
    const nowMs = this.#now().getTime();
    // A clock that was put back must not keep it closed.
    if (!this.#trying && Math.abs(nowMs - this.#triedMs) < TRY_AGAIN_MS) return;
    this.#triedMs = nowMs;
    this.#trying ??= this.open().finally(() => (this.#trying = null));
    await this.#trying;
  }

  /**
   * There is none in its place though there was one, or none that can be read: begins an empty casebook. What is there is
   * set aside, and so are the backups of the lost one, in a folder whose path is returned: backups of the new one would
   * crowd them out in time.
   */
  async beginEmpty(): Promise<string> {
    if (!this.#lock || !this.canBeginEmpty) throw new Error(this.problem);
    const aside = setAside(this.file, this.#now());
    let keptIn = aside ?? path.dirname(this.file);
    if (existsSync(this.backupFolder)) {
      keptIn = `${this.backupFolder}-until-${stamp(this.#now())}`;
      renameSync(this.backupFolder, keptIn);
    }
    await this.#openFile({ beginsAnew: true });
    if (!this.#opened) throw new Error(this.problem);
    return keptIn;
  }

  /** Whether `beginEmpty` is offered: nothing is there to lose, or nothing of it can be read and there is no way back. */
  get canBeginEmpty(): boolean {
    if (this.#trouble === 'missing' || this.#trouble === 'empty') return true;
    return this.#trouble === 'damaged' && this.#newestGood() === undefined;
  }

  /** Only a full disk is anything that somebody at a screen can do something about. */
  troubleOf(error: unknown): CasebookTrouble | null {
    return fileTrouble(error).kind === 'full'
      ? {
          code: 'refused',
          said: [casebookTrouble.diskFull()],
        }
      : null;
  }

  /** One process has the file: there are no others. */
  followOthers(_listener: (change: Change) => void): void {}

  telling<T>(_change: Change | null, call: () => Promise<T>): Promise<T> {
    return call();
  }

  get warnings(): readonly Message[] {
    return [...this.#loss, ...this.#warning];
  }

  async #openFile(options: { readonly beginsAnew?: boolean } = {}): Promise<void> {
    const isNew = this.file === ':memory:' || !existsSync(this.file);
    if (isNew && this.file !== ':memory:') {
      const traces = options.beginsAnew ? null : this.#tracesOfALostOne();
      if (traces) {
        this.#trouble = 'missing';
        this.#problem = [traces, ...this.#wayBack(), casebookTrouble.anEmptyOne()];
        return;
      }
      await this.#create();
    }
    const opened = openDatabase(this.file);
    if (!opened.ok) {
      this.#fail(opened);
      return;
    }
    const { database } = opened;
    this.#loss = opened.isLogCutShort ? [casebookTrouble.journalDamaged({ file: this.file })] : [];
    const db: CasebookDb = new Kysely<Tables>({ dialect: new CasebookSqliteDialect(database) });
    try {
      const pending = await pendingMigrations(db);
      if (!isNew && (this.#makesBackups || pending.length > 0))
        await this.#backUpOrWarn(database, pending.length > 0);
      if (pending.length > 0) await migrateToLatest(db, migrationsTelling(this.#onMigrating));
      const missing = missingTables(database);
      if (missing.length > 0) throw new DamagedError(casebookTrouble.tablesMissing({ names: missing }));
      this.#opened = { db, database, identity: identityOf(this.file) };
      this.#trouble = null;
      this.#isLeftSaved = false;
      this.#scheduleBackups();
    } catch (error) {
      await db.destroy();
      const { file } = this;
      if (error instanceof DamagedError) {
        this.#fail({
          trouble: 'damaged',
          said: [casebookTrouble.cannotBeRead({ file, why: error.said })],
        });
        return;
      }
      const { kind, why } = fileTrouble(error);
      this.#fail({
        trouble: kind,
        said: [casebookTrouble.notBroughtUp({ file, why }), casebookTrouble.asLeft()],
      });
    }
  }

  /** A new casebook is made beside its place and moved in whole: a kill in between leaves none, never an empty file. */
  async #create(): Promise<void> {
    const unfinished = `${this.file}.new`;
    for (const ending of ['', '-wal', '-shm', '-journal']) rmSync(unfinished + ending, { force: true });
    const database = new Database(unfinished);
    makePrivateIfThere(unfinished);
    const db: CasebookDb = new Kysely<Tables>({ dialect: new CasebookSqliteDialect(database) });
    try {
      await migrateToLatest(db);
    } finally {
      await db.destroy();
    }
    syncToDisk(unfinished);
    renameSync(unfinished, this.file);
    syncToDisk(path.dirname(this.file), true);
  }

  #fail({ trouble, said }: { readonly trouble: OpenTrouble; readonly said: readonly Message[] }): void {
    this.#trouble = trouble;
    const leadsBack = trouble === 'damaged' || trouble === 'empty';
    this.#problem = leadsBack ? [...said, ...this.#wayBack()] : said;
  }

  /** What tells that there was a casebook where there is none now; null where nothing does. */
  #tracesOfALostOne(): Message | null {
    const backups = listBackups(this.backupFolder).length;
    const aside = setAsideNames(this.file).length;
    const { file } = this;
    if (backups > 0) return casebookTrouble.noneButBackups({ file, count: backups });
    if (aside > 0) return casebookTrouble.noneButAside({ file, count: aside });
    return existsSync(`${file}-wal`) ? casebookTrouble.noneButJournal({ file }) : null;
  }

  #newestGood(): Backup | undefined {
    return listBackups(this.backupFolder).find((backup) => backup.cases !== null);
  }

  #wayBack(): readonly Message[] {
    const newest = this.#newestGood();
    if (newest) return [casebookTrouble.newestGood({ name: newest.name, count: newest.cases ?? 0 })];
    const [aside] = setAsideNames(this.file);
    return [
      casebookTrouble.noBackup({ folder: this.backupFolder }),
      ...(aside ? [casebookTrouble.asideKept({ file: aside })] : []),
      casebookTrouble.copiesHelp(),
    ];
  }

  #clearLitter(): void {
    try {
      clearLitter(this.backupFolder);
      for (const ending of ['', '-wal', '-shm', '-journal'])
        rmSync(`${this.file}.new${ending}`, { force: true });
    } catch {
      // Litter in a folder that may not be written stays there.
    }
  }

  #scheduleBackups(): void {
    if (this.file === ':memory:' || !this.#makesBackups) return;
    clearInterval(this.#hourly);
    this.#savedChanges = this.#changes();
    this.#hourly = setInterval(() => void this.#backUpWhatChanged(), ONE_HOUR_MS);
    this.#hourly.unref();
  }

  async #backUpWhatChanged(): Promise<void> {
    const changes = this.#changes();
    const opened = this.#opened;
    if (!opened || changes === this.#savedChanges) return;
    await this.#oneAtATime(() => this.#backUpOrWarn(opened.database, true));
    if (this.#warning.length === 0) this.#savedChanges = changes;
  }

  #changes(): number {
    const row = this.#opened?.database.prepare<[], { n: number }>('select total_changes() as n').get();
    return row?.n ?? 0;
  }

  /** A backup that cannot be made is a warning: the casebook itself is whole, and refusing it would help nobody. */
  async #backUpOrWarn(database: Database.Database, isDue: boolean): Promise<void> {
    try {
      const newest = newestBackupMs(this.backupFolder, this.#now());
      if (!isDue && newest !== null && this.#now().getTime() - newest < ONE_HOUR_MS) return;
      await makeBackup(database, this.backupFolder, this.#now());
      this.photos.backUp();
      this.#warning = [];
    } catch (error) {
      this.#warning = [this.#noBackupMade(error), casebookTrouble.stillWhole()];
    }
  }

  #noBackupMade(error: unknown): Message {
    return casebookTrouble.noBackupMade({ folder: this.backupFolder, why: fileTrouble(error).why });
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

  get problemSaid(): readonly Message[] {
    return this.#opened ? [casebookTrouble.replaced({ file: this.file }), ...this.#wayBack()] : this.#problem;
  }

  get problem(): string {
    return inEnglish(this.problemSaid);
  }

  /** The lost file can still be read through the open handle: once, as a backup. */
  #saveWhatIsLeft(): void {
    if (this.#isLeftSaved) return;
    this.#isLeftSaved = true;
    void this.makeBackup().catch(() => undefined);
  }

  /** The open database; throws where it is unavailable, so ask `isOpen` at the gate. */
  get db(): CasebookDb {
    if (!this.#opened) throw new Error(this.problem);
    return this.#opened.db;
  }

  /** Whether this process may put a backup in the casebook's place: not while another one has it, nor while it does so. */
  get canRestore(): boolean {
    return this.#lock !== null && !this.#isRestoring;
  }

  get restoreRefusal(): readonly Message[] {
    return this.#isRestoring ? [casebookTrouble.restoreUnderWay()] : this.#problem;
  }

  listBackups(): Backup[] {
    return listBackups(this.backupFolder);
  }

  async makeBackup(): Promise<Backup> {
    return this.#oneAtATime(async () => {
      if (!this.#opened) throw new SaidError(this.#problem[0] ?? casebookTrouble.notOpened());
      try {
        const made = await makeBackup(this.#opened.database, this.backupFolder, this.#now());
        this.photos.backUp();
        this.#warning = [];
        return made;
      } catch (error) {
        throw new SaidError(this.#noBackupMade(error), { cause: error });
      }
    });
  }

  /**
   * Replaces the casebook by a backup and opens it; the replaced file is kept under the name returned. The copy is made
   * and checked first. Where anything fails, the casebook is in its place and open as before, and what went wrong is
   * thrown in words.
   */
  async restore(name: string): Promise<string> {
    if (!this.canRestore) throw new Error(inEnglish(this.restoreRefusal));
    this.#isRestoring = true;
    try {
      return await this.#oneAtATime(() => this.#restore(name));
    } finally {
      this.#isRestoring = false;
    }
  }

  async #restore(name: string): Promise<string> {
    copyForRestore(this.backupFolder, name, this.file);
    await this.#closeFile();
    this.#problem = [casebookTrouble.beingRestored()];
    let keptAs: string;
    try {
      keptAs = swapIn(this.file, this.#now());
    } catch (error) {
      await this.#openFile();
      throw error;
    }
    await this.#openFile();
    if (this.#opened) return keptAs;
    // The first sentence says why; the others would lead back from where nobody is any more.
    const why = this.#problem[0] ?? casebookTrouble.notOpened();
    swapBack(this.file, keptAs);
    await this.#openFile();
    throw new SaidError(casebookTrouble.backupNotOpen({ name, why }));
  }

  #oneAtATime<T>(work: () => Promise<T>): Promise<T> {
    const done = this.#last.then(work, work);
    this.#last = done.catch(() => undefined);
    return done;
  }

  async #closeFile(): Promise<void> {
    clearInterval(this.#hourly);
    const opened = this.#opened;
    this.#opened = null;
    await opened?.db.destroy();
  }

  async close(): Promise<void> {
    await this.#oneAtATime(() => this.#closeFile());
    this.#lock?.release();
    this.#lock = null;
    this.#trouble = null;
    this.#problem = [casebookTrouble.closed()];
  }
}

/** Pages are whole, but what a casebook must have is gone. */
class DamagedError extends SaidError {}

/** Device and number of the file in that place; empty where there is none, null for a casebook in memory. */
function identityOf(file: string): string | null {
  if (file === ':memory:') return null;
  const found = statSync(file, { bigint: true, throwIfNoEntry: false });
  return found ? `${found.dev}:${found.ino}` : '';
}
