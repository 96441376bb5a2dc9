import { casebookTrouble } from '../../../src-core/words/en/casebook-trouble.ts';
import { setTimeout as after } from 'node:timers/promises';
import { Client, type ClientConfig } from 'pg';
import { z } from 'zod';
import { CHANGE_TOPICS, type Change } from '../../../src-core/contract/change.ts';
import { SaidError } from '../../../src-core/words/said-error.ts';

/** Word goes from station to station by this channel of the database. */
export const CHANNEL = 'beadwright';
/** A connection that was lost is looked for again after this long. */
const AGAIN_MS = 1000;
/** A connection that only seems to be there (a pulled cable) is noticed after two of these. */
const BEAT_MS = 10_000;
/** How long a server is given to let go of what was held, when a station ends. */
const LET_GO_MS = 1000;
/** What comes in quick succession (an import, the demo shop) is passed on once. */
const GATHERED_MS = 20;

/**
 * Held together by all who work with the casebook, on the connection that listens; alone by whoever moves it elsewhere. Any
 * number will do, other than that of `postgres-dialect.ts`.
 */
export const AT_WORK = 7_233_160_119;

/** Somebody moves the casebook: whoever wrote now would write into what is left behind. */
export class BeingMovedError extends SaidError {
  constructor() {
    super(casebookTrouble.beingMoved());
  }
}

const noticeSchema = z.strictObject({
  from: z.string(),
  topics: z.array(z.enum(CHANGE_TOPICS)),
  caseId: z.string().nullable(),
});

export const EVERYTHING: Change = { topics: CHANGE_TOPICS, caseId: null, revision: null };

/** What is said to other stations: who says it, so that one does not hear itself, and what changed. */
export function noticeOf(from: string, { topics, caseId }: Change): string {
  return JSON.stringify({ from, topics, caseId });
}

export interface NoticeHandlers {
  readonly changed: (change: Change) => void;
  readonly lost: (error: unknown) => void;
  readonly back: () => void;
  /** How often it is looked whether the connection still answers, and how long that may take, millisecond. */
  readonly beatMs?: number;
}

/** Listens on a connection of its own to what other stations commit, for as long as it is not closed. */
export class StationNotices {
  readonly #config: ClientConfig;
  readonly #own: string;
  readonly #handlers: NoticeHandlers;
  readonly #beatMs: number;
  #isClosed = false;
  readonly #gathered = new Map<string, Change>();
  #ending: Promise<void> | null = null;
  /** Ends the wait before the next look. */
  #wake: () => void = () => undefined;
  #looked: () => void = () => undefined;
  /** Gives the connection at hand up. */
  #lose: (error: unknown) => void = () => undefined;

  constructor(config: ClientConfig, own: string, handlers: NoticeHandlers) {
    this.#config = config;
    this.#own = own;
    this.#handlers = handlers;
    this.#beatMs = handlers.beatMs ?? BEAT_MS;
  }

  /** Comes back once it listens for the first time, or could not; goes on by itself after that. */
  start(): Promise<void> {
    return new Promise((resolve) => {
      this.#ending ??= this.#listenOn(resolve);
    });
  }

  /** Looks at once instead of in a while, and comes back when it has. */
  lookNow(): Promise<void> {
    return new Promise((resolve) => {
      this.#looked = resolve;
      this.#wake();
    });
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    this.#lose(new Error('closed'));
    this.#wake();
    await this.#ending;
  }

  async #listenOn(begun: () => void): Promise<void> {
    while (!this.#isClosed) {
      const client = new Client({ ...this.#config, query_timeout: this.#beatMs });
      try {
        await this.#listenOnce(client, begun);
      } catch (error) {
        if (!this.#isClosed) this.#handlers.lost(error);
      }
      begun();
      this.#looked();
      if (this.#isClosed) await Promise.race([letGo(client), after(LET_GO_MS, undefined, { ref: false })]);
      // Not waited for: a server that is gone says no goodbye.
      client.end().catch(() => undefined);
      if (!this.#isClosed) await this.#pause();
    }
  }

  #pause(): Promise<void> {
    return new Promise((resolve) => {
      const timer = setTimeout(resolve, AGAIN_MS);
      this.#wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  }

  /** Ends by throwing what the connection was lost of. */
  async #listenOnce(client: Client, begun: () => void): Promise<void> {
    const { promise: isLost, reject } = Promise.withResolvers<never>();
    isLost.catch(() => undefined);
    client.on('error', reject);
    client.on('end', () => reject(new Error('Connection terminated')));
    this.#lose = reject;
    await Promise.race([client.connect(), isLost]);
    client.on('notification', ({ payload }) => this.#hear(payload ?? ''));
    await client.query(`listen ${CHANNEL}`);
    const { rows } = await client.query<{ isMine: boolean }>(
      `select pg_try_advisory_lock_shared(${AT_WORK}) as "isMine"`,
    );
    if (rows[0]?.isMine !== true) throw new BeingMovedError();
    // Whatever was said in the meantime was not heard.
    this.#handlers.back();
    begun();
    this.#looked();
    for (;;) {
      await Promise.race([after(this.#beatMs, undefined, { ref: false }), isLost]);
      await Promise.race([client.query('select 1'), isLost]);
    }
  }

  #hear(payload: string): void {
    const notice = noticeSchema.safeParse(jsonOf(payload));
    // Of a version to come: something changed, and who knows what.
    const said = notice.success ? notice.data : { from: '', ...EVERYTHING };
    if (said.from === this.#own) return;
    if (this.#gathered.size === 0) setTimeout(() => this.#passOn(), GATHERED_MS).unref();
    const { topics, caseId } = said;
    this.#gathered.set(JSON.stringify([topics, caseId]), { topics, caseId, revision: null });
  }

  #passOn(): void {
    const changes = [...this.#gathered.values()];
    this.#gathered.clear();
    for (const change of changes) this.#handlers.changed(change);
  }
}

/**
 * Gives back what a connection holds before it ends: the server sees it off only a moment after its end, and whoever came in that
 * moment would find somebody at work still. A connection that is lost holds nothing.
 */
export async function letGo(client: Client): Promise<void> {
  await client.query('select pg_advisory_unlock_all()').catch(() => undefined);
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
