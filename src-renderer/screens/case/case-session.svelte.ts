import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import type { CaseView, WhyCandidate, WhyCheck } from '../../../src-core/contract/case-view.ts';
import type { SecondThoughts } from '../../../src-core/contract/second-thoughts-view.ts';
import type { Reply } from '../../../src-core/contract/reply.ts';
import type { CaseLink } from './case-link.ts';
import { m } from '../../messages/en/case.ts';

/** A send that did not go through; the event is kept so that nothing has to be entered again. */
export interface Failure {
  readonly message: string;
  readonly event: CaseEvent | null;
}

/** What somebody knows without having been asked; "not-sure" says that it was looked for and could not be told. */
export interface SaidStatement {
  readonly observation: string;
  readonly value: string;
}

/** A second tap that comes within this time belongs to the tap before it; systems take 300 to 500 ms (common practice). */
const DOUBLE_TAP_MS = 400;

/** One case on one screen: its newest view, and the way to send events to it. The host holds the truth. */
export class CaseSession {
  readonly caseId: string;
  /** Null until first read. */
  view = $state.raw<CaseView | null>(null);
  /** A send is under way, or the screen has only just changed because of one: further answers are not taken. */
  isBusy = $state(false);
  failure = $state.raw<Failure | null>(null);
  /** The case moved on elsewhere; shown until the next send. */
  notice = $state('');
  /** What was entered for the case as it stood before, and not taken; offered once more. */
  notTaken = $state.raw<CaseEvent | null>(null);
  /** How the case stands now at other screens, held back while somebody is typing at this one. */
  waiting = $state.raw<CaseView | null>(null);

  readonly #link: CaseLink;
  readonly #isTyping: () => boolean;
  #underWay: Promise<unknown> = Promise.resolve();
  #reasonsToWait = 0;
  #sending: Promise<unknown> = Promise.resolve();

  /** `isTyping`: something was entered on the screen that a newer view would take away. */
  constructor(link: CaseLink, caseId: string, isTyping: () => boolean = () => false) {
    this.#link = link;
    this.caseId = caseId;
    this.#isTyping = isTyping;
  }

  /** Reads the case, also to catch up with other screens. */
  async load(): Promise<void> {
    const reply = await this.#link.view();
    if (reply.ok) {
      this.#offer(reply.value);
      if (this.failure?.event === null) this.failure = null;
    } else if (this.view === null) {
      this.failure = { message: reply.error.message, event: null };
    }
  }

  /** Reads the case again where it has moved on at another screen: to this revision, or to any where none is said. */
  async catchUp(revision: number | null): Promise<void> {
    // What this screen is sending comes back as a change, too.
    await this.#sending;
    if (revision !== null && this.view !== null && this.view.revision >= revision) return;
    await this.load();
  }

  /** Shows how the case stands now, whatever was begun here. */
  showWaiting(): void {
    if (this.waiting) this.#take(this.waiting);
  }

  /**
   * Sends one event with the revision that is on the screen; true when it was recorded.
   * While another send is under way it does nothing, and for a moment after what is to be done has changed: a double
   * press counts once, and its second half does not answer the next question.
   */
  async send(event: CaseEvent): Promise<boolean> {
    if (this.isBusy || this.view === null) return false;
    this.#begin();
    const before = taskOf(this.view);
    const sending = this.#sendNow(event, this.view.revision);
    this.#underWay = sending;
    try {
      return await sending;
    } finally {
      if (taskOf(this.view) !== before) {
        this.#begin();
        setTimeout(() => this.#end(), DOUBLE_TAP_MS);
      }
      this.#end();
    }
  }

  /**
   * Sends several things that somebody knows, one after the other, and stops where one is not taken or where the case turns to
   * something else (a danger sign among them). Returns the observations that were recorded.
   */
  async say(statements: readonly SaidStatement[]): Promise<readonly string[]> {
    const taken: string[] = [];
    for (const { observation, value } of statements) {
      const event: CaseEvent =
        value === 'not-sure'
          ? { kind: 'could-not-tell', observation }
          : { kind: 'answered', observation, value };
      if (!(await this.#sendWaiting(event))) break;
      taken.push(observation);
      if (this.view?.state !== 'checking') break;
    }
    return taken;
  }

  /** Sends what belongs together, one after the other, and stops where one is not taken. True when all were. */
  async sendAll(events: readonly CaseEvent[]): Promise<boolean> {
    if (this.isBusy) return false;
    for (const event of events) if (!(await this.#sendWaiting(event))) return false;
    return true;
  }

  /** Sends what was not taken, to the case as it stands now. */
  async sendNotTaken(): Promise<boolean> {
    return this.notTaken !== null && this.send(this.notTaken);
  }

  /** Ticks a step of the remedy; unlike `send` it waits its turn, so that quick ticks are all taken. */
  async tick(step: number, isDone: boolean): Promise<boolean> {
    const before = this.#underWay;
    const turn = before.then(() => this.#sendWaiting({ kind: 'step-ticked', step, isDone }));
    this.#underWay = turn.catch(() => undefined);
    return turn;
  }

  /** Sends again what did not go through, or reads the case again. */
  async retry(): Promise<boolean> {
    const event = this.failure?.event ?? null;
    this.failure = null;
    if (event) return this.send(event);
    await this.load();
    return false;
  }

  whyCandidate(cause: string): Promise<Reply<WhyCandidate>> {
    return this.#link.whyCandidate(cause);
  }

  whyCheck(observation: string): Promise<Reply<WhyCheck>> {
    return this.#link.whyCheck(observation);
  }

  secondThoughts(): Promise<Reply<SecondThoughts | null>> {
    return this.#link.secondThoughts();
  }

  async #sendWaiting(event: CaseEvent): Promise<boolean> {
    if (this.view === null) return false;
    this.#begin();
    try {
      return await this.#sendNow(event, this.view.revision);
    } finally {
      this.#end();
    }
  }

  #begin(): void {
    this.#reasonsToWait++;
    this.isBusy = true;
  }

  /** Of several sends, and the moment after one, the last to end ends the waiting. */
  #end(): void {
    this.#reasonsToWait--;
    this.isBusy = this.#reasonsToWait > 0;
  }

  #sendNow(event: CaseEvent, revision: number): Promise<boolean> {
    const sending = this.#sendAt(event, revision);
    this.#sending = sending.catch(() => undefined);
    return sending;
  }

  async #sendAt(event: CaseEvent, revision: number): Promise<boolean> {
    this.failure = null;
    this.notice = '';
    this.notTaken = null;
    const reply = await this.#link.send(event, revision);
    if (reply.ok) {
      this.#take(reply.value);
      return true;
    }
    if (reply.error.code === 'stale' && isViewOf(this.caseId, reply.error.current)) {
      const isNews = reply.error.current.revision > revision;
      this.#take(reply.error.current);
      // A note or a photo is as true of the case as it stands now.
      if (isNews && (event.kind === 'noted' || event.kind === 'photographed'))
        return this.#sendAt(event, reply.error.current.revision);
      this.notTaken = event;
      this.notice = m.yourLastEntryWasNotTaken({ message: reply.error.message });
    } else if (reply.error.code === 'refused') {
      // To send it again would change nothing.
      this.notice = reply.error.message;
    } else {
      this.failure = { message: reply.error.message, event };
    }
    return false;
  }

  /** A view from another screen: shown, but for what somebody is typing here. A danger does not wait. */
  #offer(next: CaseView): void {
    const isNews = this.view !== null && next.revision > this.view.revision;
    const isUrgent = ['stop-now', 'make-safe'].includes(next.state) || next.stopped?.takenOverBy === null;
    if (isNews && !isUrgent && this.#isTyping()) this.waiting = next;
    else this.#take(next);
  }

  /** Views may arrive out of order; an older one never replaces a newer. */
  #take(next: CaseView): void {
    if (this.view === null || next.revision >= this.view.revision) this.view = next;
    if (this.waiting !== null && this.waiting.revision <= this.view.revision) this.waiting = null;
  }
}

/** What the operator is asked to do: when it changes, other buttons lie where the pressed one was. */
function taskOf({ state, question, next }: CaseView): string {
  return `${state}/${question?.observation ?? next?.id ?? ''}`;
}

function isViewOf(caseId: string, value: unknown): value is CaseView {
  return (
    typeof value === 'object' &&
    value !== null &&
    'caseId' in value &&
    value.caseId === caseId &&
    'revision' in value
  );
}
