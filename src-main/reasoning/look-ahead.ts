import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { lookAhead } from '../../src-core/session/advance.ts';
import type { AroundCase, CaseStep } from '../../src-core/session/case-step.ts';
import { Foreseen, type ForeseenCounts } from '../../src-core/session/foreseen.ts';
import type { TaskArguments, TaskName, TaskResult } from './tasks.ts';

/** What a thread tells the time and its turns by. */
export interface Turns {
  nowMs(): number;
  /** Runs `work` after at least that long, once everything that came in by then has been done; returns how to call it off. */
  later(work: () => void, afterMs: number): () => void;
}

/** Nothing came in for this long: the thread is idle. */
const IDLE_MS = 30;
/** Cases whose next answers are thought ahead: those answered last. */
const MOST_CASES = 6;

/** What is left to think ahead of one case, as it stands. */
interface Ahead {
  readonly of: string;
  readonly pieces: readonly (() => void)[];
}

/**
 * Thinks ahead in a thread that would have nothing to do: the answers that are likely to come next in the cases answered last.
 * Anything asked goes first: one piece of work is as long as one answer, and before the next the thread hears for as long as the
 * last one took what came in. So it takes half of what an idle thread could do at most, less where others work on the machine,
 * and nothing where one answer follows upon another. A case that has gone on is dropped.
 */
export class LookAhead {
  readonly foreseen: Foreseen;
  private readonly knowledge: Knowledge;
  private readonly turns: Turns;
  private readonly onRested: (counts: ForeseenCounts) => void;
  private waiting: readonly Ahead[] = [];
  private pauseMs = IDLE_MS;
  private callOff: (() => void) | null = null;

  /** `onRested` is told whenever there is nothing more to think ahead. */
  constructor(knowledge: Knowledge, turns: Turns, onRested: (counts: ForeseenCounts) => void) {
    this.knowledge = knowledge;
    this.foreseen = new Foreseen(knowledge);
    this.turns = turns;
    this.onRested = onRested;
  }

  /** Told before a task begins: what is thought ahead waits. */
  begun(): void {
    this.callOff?.();
    this.callOff = null;
  }

  /** Told of a task's result: after an answer there is something to think ahead. */
  answered(name: TaskName, args: readonly unknown[], result: unknown): void {
    // Other tasks are no event of a person.
    if (name !== 'advance') return;
    const [before, , around] = args as TaskArguments<'advance'>;
    const advanced = result as TaskResult<'advance'>;
    if (advanced.ok) this.goOnFrom(before, advanced.step, around);
  }

  /** Told of a case that somebody looks at, and may answer next. */
  looked(step: CaseStep, around: AroundCase): void {
    this.goOnFrom(step, step, around);
  }

  /** Told after a task, whatever became of it, once its result is on its way. */
  ended(): void {
    this.goOn();
  }

  private goOnFrom(before: CaseStep | null, step: CaseStep, around: AroundCase): void {
    const overtaken = before && standingOf(before);
    const others = this.waiting.filter(({ of }) => of !== overtaken);
    const pieces = lookAhead(this.knowledge, step, around, this.foreseen);
    this.waiting = [{ of: standingOf(step), pieces }, ...others].slice(0, MOST_CASES);
  }

  private goOn(): void {
    const [first, ...others] = this.waiting;
    if (!first) {
      this.onRested(this.foreseen.counts);
      return;
    }
    const [piece, ...pieces] = first.pieces;
    if (!piece) {
      this.waiting = others;
      this.goOn();
      return;
    }
    this.callOff = this.turns.later(() => {
      this.callOff = null;
      this.waiting = [{ ...first, pieces }, ...others];
      const beganMs = this.turns.nowMs();
      try {
        piece();
      } catch {
        // Whatever it is, it will be said when somebody really asks for it.
      }
      this.pauseMs = Math.max(IDLE_MS, this.turns.nowMs() - beganMs);
      this.goOn();
    }, this.pauseMs);
  }
}

/** What tells one case that waits for an answer from another; two that stand alike have the same work. */
function standingOf({ moment }: CaseStep): string {
  return JSON.stringify(moment);
}
