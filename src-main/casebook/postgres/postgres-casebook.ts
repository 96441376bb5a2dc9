import { casebookTrouble } from '../../../src-core/words/en/casebook-trouble.ts';
import { inEnglish } from '../../../src-core/words/in-english.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { AsyncLocalStorage } from 'node:async_hooks';
import { randomUUID } from 'node:crypto';
import { sql } from 'kysely';
import type { Dumps } from '../../../src-core/contract/casebook-view.ts';
import type { Change } from '../../../src-core/contract/change.ts';
import type { Casebook, CasebookDb, CasebookTrouble } from '../casebook.ts';
import { migrateToLatest, pendingMigrations } from '../migrate.ts';
import { TABLE_NAMES } from '../tables.ts';
import { clientConfig, connectTo, type PostgresConnection, type Telling } from './connection.ts';
import { SaidError } from '../../../src-core/words/said-error.ts';
import { withoutPassword } from './database-address.ts';
import { dumpWarning, newestDump } from './dump-folder.ts';
import { isMoveUnfinished } from './move-mark.ts';
import { compareTextByBytes, postgresMigrations, tablesThere, troubleOfForm } from './postgres-migrations.ts';
import { PostgresPhotos } from './postgres-photos.ts';
import { postgresFault } from './postgres-trouble.ts';
import { BeingMovedError, CHANNEL, EVERYTHING, noticeOf, StationNotices } from './station-notices.ts';

/** What was not there is looked for again after this long. */
const TRY_AGAIN_MS = 1000;

export interface PostgresOptions {
  readonly now: () => Date;
  /** The folder into which dumps are put, whose age is looked at; null where nobody has named one. */
  readonly dumpFolder: string | null;
  /** Told when the database goes away and when it is back, in words. */
  readonly log?: (words: string) => void;
  /** How often it is looked whether the database still answers, millisecond. */
  readonly beatMs?: number;
}

/** A casebook in a PostgreSQL database, which several stations may work with at a time. */
export class PostgresCasebook implements Casebook {
  readonly place: string;
  readonly photos: PostgresPhotos;
  readonly upkeep = null;
  readonly #address: string;
  readonly #options: PostgresOptions;
  readonly #tellings = new AsyncLocalStorage<Telling>();
  /** Tells this one's own words from those of other stations. */
  readonly #own = randomUUID();
  #opened: PostgresConnection | null = null;
  /** Why the connection that listens is not there; null while it is. */
  #lost: unknown = new SaidError(casebookTrouble.notLookedFor());
  #notices: StationNotices | null = null;
  #problem: readonly Message[] = [casebookTrouble.notOpened()];
  #servers: Message | null = null;
  #listener: (change: Change) => void = () => undefined;
  #triedMs = -Infinity;
  #trying: Promise<void> | null = null;
  #again: NodeJS.Timeout | undefined;
  #isClosed = false;

  constructor(address: string, options: PostgresOptions) {
    this.#address = address;
    this.#options = options;
    this.place = withoutPassword(address);
    this.photos = new PostgresPhotos(() => this.db);
  }

  get isOpen(): boolean {
    return this.#opened !== null && this.#lost === null;
  }

  get problemSaid(): readonly Message[] {
    return this.#opened && this.#lost !== null ? [this.#away(this.#lost)] : this.#problem;
  }

  get problem(): string {
    return inEnglish(this.problemSaid);
  }

  get warnings(): readonly Message[] {
    const { dumpFolder, now } = this.#options;
    const dumps = dumpFolder === null ? null : dumpWarning(dumpFolder, now());
    return [this.#servers, dumps].filter((one) => one !== null);
  }

  get db(): CasebookDb {
    if (!this.#opened) throw new Error(inEnglish(this.#problem));
    return this.#opened.db;
  }

  readonly dumps = (): Dumps => {
    const { dumpFolder } = this.#options;
    const file = `${dumpFolder ?? 'FOLDER'}/beadwright-$(date +%F-%H%M).dump`;
    return {
      make: `pg_dump --format=custom --file="${file}" "${this.place}"`,
      putBack: `pg_restore --no-owner --exit-on-error --dbname="ADDRESS OF A NEW DATABASE" FILE`,
      folder: dumpFolder,
      newest: dumpFolder === null ? null : newestOrNull(dumpFolder),
    };
  };

  /** One that is not there is looked for again and again, until it is. */
  async open(): Promise<void> {
    this.#trying ??= this.#open().finally(() => (this.#trying = null));
    await this.#trying;
  }

  async #open(): Promise<void> {
    if (this.#opened || this.#isClosed) return;
    clearTimeout(this.#again);
    const connection = connectTo(this.#address, this.#tellings);
    try {
      await this.#listen();
      if (this.#lost !== null) throw this.#lost;
      const fault = await this.#prepare(connection.db);
      if (fault === null) {
        this.#opened = connection;
        this.#listener(EVERYTHING);
        return;
      }
      this.#problem = [fault];
    } catch (error) {
      this.#problem = this.#saidOf(error);
      if (!this.#isClosed) this.#again = setTimeout(() => void this.open(), TRY_AGAIN_MS).unref();
    }
    await connection.db.destroy();
    await this.#stopListening();
  }

  async tryAgain(): Promise<void> {
    if (this.isOpen || this.#isClosed) return;
    const nowMs = performance.now();
    if (!this.#trying && nowMs - this.#triedMs < TRY_AGAIN_MS) return;
    this.#triedMs = nowMs;
    await (this.#opened ? this.#notices?.lookNow() : this.open());
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    clearTimeout(this.#again);
    await this.#trying;
    const opened = this.#opened;
    this.#opened = null;
    this.#problem = [casebookTrouble.closed()];
    await this.#stopListening();
    await opened?.db.destroy();
  }

  troubleOf(error: unknown): CasebookTrouble | null {
    const { kind, why } = postgresFault(error);
    switch (kind) {
      case 'away':
      case 'no-entry':
      case 'no-database':
        return {
          code: 'casebook-unavailable',
          said: [this.#away(error), casebookTrouble.lookWhetherKept()],
        };
      case 'full':
        return { code: 'refused', said: [casebookTrouble.databaseFull()] };
      case 'busy':
        return { code: 'refused', said: [casebookTrouble.databaseBusy({ why })] };
      case 'read-only':
        return { code: 'refused', said: [casebookTrouble.databaseReadOnly({ why })] };
      default:
        return null;
    }
  }

  followOthers(listener: (change: Change) => void): void {
    this.#listener = listener;
  }

  async telling<T>(change: Change | null, call: () => Promise<T>): Promise<T> {
    const telling: Telling = { notice: change && noticeOf(this.#own, change), isTold: false };
    const answer = await this.#tellings.run(telling, call);
    // An answer in a case is one transaction. Other calls may have written before or after theirs, or without one.
    const isAllTold = telling.isTold && change?.caseId !== null;
    if (telling.notice !== null && !isAllTold) await this.#tell(telling.notice);
    return answer;
  }

  /** What was kept is kept: that word of it did not go out is no reason to say otherwise. */
  async #tell(notice: string): Promise<void> {
    try {
      await this.#opened?.pool.query('select pg_notify($1, $2)', [CHANNEL, notice]);
    } catch {
      // The connection is lost: everybody reads everything again once it is back.
    }
  }

  /** The schema of today, made where there is none; why not, where that cannot be. */
  async #prepare(db: CasebookDb): Promise<Message | null> {
    const { place } = this;
    const trouble = await troubleOfForm(db, place);
    if (trouble !== null) return trouble;
    const { rows } = await sql<{
      encoding: string;
    }>`select current_setting('server_encoding') as encoding`.execute(db);
    const encoding = rows[0]?.encoding ?? '';
    if (encoding !== 'UTF8') return casebookTrouble.encoding({ place, encoding });
    if (await isMoveUnfinished(db)) return casebookTrouble.moveUnfinished({ place });
    if ((await pendingMigrations(db, postgresMigrations)).length > 0)
      await migrateToLatest(db, postgresMigrations);
    await compareTextByBytes(db);
    const there = await tablesThere(db);
    const missing = TABLE_NAMES.filter((name) => !there.has(name));
    if (missing.length > 0) return casebookTrouble.tablesMissingIn({ place, names: missing });
    this.#servers = await warningOf(db);
    return null;
  }

  async #listen(): Promise<void> {
    const { beatMs } = this.#options;
    this.#notices = new StationNotices(clientConfig(this.#address), this.#own, {
      ...(beatMs !== undefined && { beatMs }),
      changed: (change) => this.#listener(change),
      lost: (error) => {
        if (this.#lost === null) {
          this.#options.log?.(inEnglish(this.#away(error)));
          this.#opened?.breakOff();
        }
        this.#lost = error ?? new Error('Connection terminated');
      },
      back: () => {
        if (this.#opened) this.#options.log?.(inEnglish(casebookTrouble.databaseBack({ place: this.place })));
        this.#lost = null;
        this.#listener(EVERYTHING);
      },
    });
    await this.#notices.start();
  }

  async #stopListening(): Promise<void> {
    await this.#notices?.close();
    this.#notices = null;
    this.#lost = new SaidError(casebookTrouble.wasClosed());
  }

  #away(error: unknown): Message {
    return casebookTrouble.databaseAway({ place: this.place, why: postgresFault(error).why });
  }

  #saidOf(error: unknown): readonly Message[] {
    const { place } = this;
    if (error instanceof BeingMovedError) return [casebookTrouble.beingMovedAt({ place })];
    const { kind, why } = postgresFault(error);
    switch (kind) {
      case 'away':
      case 'busy':
        return [this.#away(error)];
      case 'no-entry':
        return [casebookTrouble.cannotBeUsed({ place, why }), casebookTrouble.giveRightThere()];
      case 'no-database':
        return [casebookTrouble.cannotBeUsed({ place, why }), casebookTrouble.createdb()];
      default:
        return [casebookTrouble.notBroughtUpIn({ place, why }), casebookTrouble.asLeft()];
    }
  }
}

/** Settings of the server under which what is acknowledged may be lost. */
async function warningOf(db: CasebookDb): Promise<Message | null> {
  const { rows } = await sql<{ name: string }>`
    select name from pg_settings
    where name in ('fsync', 'full_page_writes', 'synchronous_commit') and setting = 'off' order by name`.execute(
    db,
  );
  if (rows.length === 0) return null;
  return casebookTrouble.serverOff({ names: rows.map(({ name }) => name) });
}

function newestOrNull(folder: string): Dumps['newest'] {
  try {
    return newestDump(folder);
  } catch {
    // `warnings` say why.
    return null;
  }
}
