import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { lookAhead } from '../../src-core/session/advance.ts';
import type { AroundCase, CaseStep } from '../../src-core/session/case-step.ts';
import { Foreseen, type ForeseenCounts } from '../../src-core/session/foreseen.ts';
import type { TaskArguments, TaskName, TaskResult } from './tasks.ts';

/** Runs `work` after at least that long, once everything that came in by then has been done; returns how to call it off. */
export type Later = (work: () => void, afterMs: number) => () => void;

/** Nothing came in for this long: the thread is idle. Twice as long after each answer that came before it was done. */
const IDLE_MS = 30;
const MOST_IDLE_MS = 2000;
/** Cases whose next answers are thought ahead: those answered last. */
const MOST_CASES = 6;

/** What is left to think ahead of one case, as it stands. */
interface Ahead {
  readonly of: string;
  readonly pieces: readonly (() => void)[];
}

/**
 * Thinks ahead in a thread that would have nothing to do: the answers that are likely to come next in the cases answered last.
 * Anything asked goes first: one piece of work is as long as one answer, and between two of them the thread hears what came
 * in. A case that has gone on is dropped. In a shop that keeps the thread busy next to nothing is thought ahead, so that nobody
 * waits for a guess at somebody else's answer.
 */
export class LookAhead {
  readonly foreseen = new Foreseen();
  private readonly knowledge: Knowledge;
  private readonly later: Later;
  private readonly onRested: (counts: ForeseenCounts) => void;
  private waiting: readonly Ahead[] = [];
  private idleMs = IDLE_MS;
  private callOff: (() => void) | null = null;

  /** `onRested` is told whenever there is nothing more to think ahead. */
  constructor(knowledge: Knowledge, later: Later, onRested: (counts: ForeseenCounts) => void) {
    this.knowledge = knowledge;
    this.later = later;
    this.onRested = onRested;
  }

  /** Told before a task begins: what is thought ahead waits. */
  begun(): void {
    this.callOff?.();
    this.callOff = null;
  }

  /** Told of a task's result: after an answer there is something to think ahead. */
  answered(name: TaskName, args: readonly unknown[], result: unknown): void {
    // Other tasks are no event of a person: a case that is only read is not thought about.
    if (name !== 'advance') return;
    const [before, , around] = args as TaskArguments<'advance'>;
    const advanced = result as TaskResult<'advance'>;
    if (advanced.ok) this.goOnFrom(before, advanced.step, around);
  }

  /** Told after a task, whatever became of it, once its result is on its way. */
  ended(): void {
    this.goOn(this.idleMs);
  }

  private goOnFrom(before: CaseStep | null, step: CaseStep, around: AroundCase): void {
    if (this.waiting.length > 0) this.idleMs = Math.min(2 * this.idleMs, MOST_IDLE_MS);
    const overtaken = before && standingOf(before);
    const others = this.waiting.filter(({ of }) => of !== overtaken);
    const pieces = lookAhead(this.knowledge, step, around, this.foreseen);
    this.waiting = [{ of: standingOf(step), pieces }, ...others].slice(0, MOST_CASES);
  }

  private goOn(afterMs: number): void {
    const [first, ...others] = this.waiting;
    if (!first) {
      this.idleMs = IDLE_MS;
      this.onRested(this.foreseen.counts);
      return;
    }
    const [piece, ...pieces] = first.pieces;
    if (!piece) {
      this.waiting = others;
      this.goOn(afterMs);
      return;
    }
    this.callOff = this.later(() => {
      this.callOff = null;
      this.waiting = [{ ...first, pieces }, ...others];
      try {
        piece();
      } catch {
        // Whatever it is, it will be said when somebody really asks for it.
      }
      this.goOn(0);
    }, afterMs);
  }
}

/** What tells one case that waits for an answer from another; two that stand alike have the same work. */
function standingOf({ moment }: CaseStep): string {
  return JSON.stringify(moment);
}
