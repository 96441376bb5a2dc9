import { setTimeout as after } from 'node:timers/promises';
import { ulid } from 'ulid';
import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import type { Reply } from '../../../src-core/contract/reply.ts';
import { Talk } from './talk.ts';

/** Something that a station has said is kept. */
export interface Told {
  readonly caseId: string;
  readonly seq: number;
  readonly event: CaseEvent | 'opened';
  /** When it was sent and when the answer was there, of the machine's clock. */
  readonly sentMs: number;
  readonly atMs: number;
}

/** A time during which a tablet heard what changed without a break. */
export interface Followed {
  readonly fromMs: number;
  toMs: number;
  /** When it last heard of each case. */
  readonly heardMs: Map<string, number>;
  /** When it heard that anything may have changed. */
  readonly anythingMs: number[];
}

const AGAIN_MS = 250;
const complaints = [{ observation: 'popping-while-loading', value: 'heavy' }];

/** One case from complaint to cure; notes carry words that stand nowhere else, so that one written twice is seen. */
function script(note: () => string): CaseEvent[] {
  return [
    { kind: 'danger-answered', present: [] },
    { kind: 'answered', observation: 'vapour-at-head', value: 'slight' },
    { kind: 'noted', text: note() },
    { kind: 'answered', observation: 'bubbly-free-air-extrusion', value: 'heavy' },
    { kind: 'noted', text: note() },
    { kind: 'parked', note: note() },
    { kind: 'resumed' },
    {
      kind: 'closed',
      causes: [{ cause: 'wet-filament' }],
      practice: null,
      minutesLost: 30,
      gramsScrapped: 5,
      note: note(),
    },
  ];
}

/** A tablet in a shop: works cases of its own, adds to one that all write to, and follows what changes. */
export class Tablet {
  readonly told: Told[] = [];
  readonly followed: Followed[] = [];
  /** How long answers took that were right, millisecond. */
  readonly tookMs: number[] = [];
  /** Answers that there should never be. */
  readonly wrong: string[] = [];
  stale = 0;
  /** Sendings of which it was not known whether they were kept. */
  unsure = 0;
  readonly #number: number;
  readonly #talk: Talk;
  readonly #pauseMs: number;
  #notes = 0;
  #isOver = false;

  constructor(number: number, port: number, pauseMs: number) {
    this.#number = number;
    this.#talk = new Talk(port, number);
    this.#pauseMs = pauseMs;
  }

  join(code: string): Promise<void> {
    return this.#talk.join(code);
  }

  /** Works until `end`; `sharedCase` is everybody's. */
  async play(sharedCase: string): Promise<void> {
    const following = this.#follow();
    // Not all at the same moment.
    await after((this.#number * 997) % Math.max(1, this.#pauseMs));
    while (!this.#isOver) {
      const caseId = ulid();
      if (!(await this.#open(caseId))) break;
      let revision = 1;
      for (const event of script(() => this.#note())) {
        await after(this.#pauseMs);
        if (this.#isOver || !(await this.#sendOwn(caseId, revision, event))) break;
        revision += 1;
        if (event.kind === 'noted') await this.#sendShared(sharedCase);
      }
    }
    this.#talk.close();
    await following;
  }

  end(): void {
    this.#isOver = true;
  }

  #note(): string {
    return `tablet ${this.#number} note ${++this.#notes}`;
  }

  async #open(caseId: string): Promise<boolean> {
    for (;;) {
      const sentMs = Date.now();
      const reply = await this.#tried(() => this.#talk.call('case:open', { caseId, complaints }));
      if (reply?.ok) return this.#tell({ caseId, seq: 1, event: 'opened', sentMs, atMs: Date.now() });
      if (this.#isOver) return false;
      // Sent twice under its own id it is opened once: then the answer is that it has moved on.
      if (reply?.error.code === 'stale')
        return this.#tell({ caseId, seq: 1, event: 'opened', sentMs, atMs: Date.now() });
      this.#judge(reply);
      await after(AGAIN_MS);
    }
  }

  /** Nobody else writes to the case: where no answer came, its revision says whether this was kept. */
  async #sendOwn(caseId: string, revision: number, event: CaseEvent): Promise<boolean> {
    for (;;) {
      const sentMs = Date.now();
      const reply = await this.#tried(() => this.#talk.call('case:send', { caseId, revision, event }));
      if (reply?.ok) {
        if (reply.value.revision !== revision + 1)
          this.wrong.push(`revision ${reply.value.revision} after ${revision}`);
        return this.#tell({ caseId, seq: revision + 1, event, sentMs, atMs: Date.now() });
      }
      if (reply?.error.code === 'stale') {
        // Only the sending before, which nobody answered, can have been here.
        const now = (reply.error.current as { revision?: number } | undefined)?.revision;
        if (now === revision + 1)
          return this.#tell({ caseId, seq: revision + 1, event, sentMs, atMs: Date.now() });
        this.wrong.push(`own case at ${now} where ${revision} was written last`);
        return false;
      }
      if (this.#isOver) return false;
      this.#judge(reply);
      await after(AGAIN_MS);
    }
  }

  /** One of many who write there: taken once, or told how it stands. */
  async #sendShared(caseId: string): Promise<void> {
    const view = await this.#tried(() => this.#talk.call('case:view', { caseId }), false);
    if (!view?.ok) return this.#judge(view);
    const { revision } = view.value;
    const event = { kind: 'noted', text: this.#note() } as const;
    const sentMs = Date.now();
    const reply = await this.#tried(() => this.#talk.call('case:send', { caseId, revision, event }));
    if (reply?.ok) this.#tell({ caseId, seq: revision + 1, event, sentMs, atMs: Date.now() });
    else if (reply?.error.code === 'stale') this.stale += 1;
    else this.#judge(reply);
  }

  #tell(told: Told): true {
    this.told.push(told);
    return true;
  }

  /** Null where no answer came. */
  async #tried<T>(call: () => Promise<Reply<T>>, isMeasured = true): Promise<Reply<T> | null> {
    const began = performance.now();
    try {
      const reply = await call();
      if (reply.ok && isMeasured) this.tookMs.push(performance.now() - began);
      return reply;
    } catch {
      return null;
    }
  }

  /** No answer, or that the database is away: that happens. Anything else should not. */
  #judge(reply: Reply<unknown> | null): void {
    this.unsure += 1;
    if (reply && !reply.ok && !['casebook-unavailable', 'refused'].includes(reply.error.code))
      this.wrong.push(`${reply.error.code}: ${reply.error.message}`);
  }

  async #follow(): Promise<void> {
    while (!this.#isOver) {
      try {
        const stream = await this.#talk.follow();
        const followed: Followed = { fromMs: Infinity, toMs: 0, heardMs: new Map(), anythingMs: [] };
        let isGreeted = false;
        for await (const piece of stream) {
          const text = (piece as Buffer).toString('utf8');
          if (!isGreeted) {
            isGreeted = true;
            this.followed.push({ ...followed, fromMs: Date.now(), toMs: Date.now() });
          }
          const own = this.followed.at(-1);
          if (!own) break;
          own.toMs = Date.now();
          if (text.includes('"caseId":null')) own.anythingMs.push(Date.now());
          for (const [, caseId = ''] of text.matchAll(/"caseId":"(\w+)"/g))
            own.heardMs.set(caseId, Date.now());
        }
      } catch {
        // Away: it is looked for again.
      }
      await after(AGAIN_MS);
    }
  }
}
