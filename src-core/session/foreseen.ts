import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseContext } from './case-context.ts';
import type { AroundCase, CaseStep } from './case-step.ts';
import { levelOfFinding } from './finding-level.ts';

/** What a step thinks of a case. */
export type Thought = Pick<CaseStep, 'reasoning' | 'ranking'>;

/** Ten cases that are answered at the same time, each with the answers to its question; some 4 MB. */
const MOST_THOUGHTS = 64;

/** What came of looking ahead. */
export interface ForeseenCounts {
  /** Thoughts that were there when they were needed, and those that had to be worked out then. */
  readonly hits: number;
  readonly misses: number;
  /** Thoughts worked out ahead. */
  readonly kept: number;
}

/**
 * What is thought of cases that may come about, worked out before the answer came, under one guide and engine. Each stands under
 * all that the reasoning is given, the whole context and the costs, where a measured number counts as its band: what is found is
 * what would be worked out, to the last bit (`tests/session/look-ahead.test.ts`). The oldest go first.
 */
export class Foreseen {
  private readonly knowledge: Knowledge;
  private readonly most: number;
  private readonly thoughts = new Map<string, Thought>();
  private hits = 0;
  private misses = 0;
  private kept = 0;

  constructor(knowledge: Knowledge, most = MOST_THOUGHTS) {
    this.knowledge = knowledge;
    this.most = most;
  }

  get size(): number {
    return this.thoughts.size;
  }

  get counts(): ForeseenCounts {
    const { hits, misses, kept } = this;
    return { hits, misses, kept };
  }

  has(context: CaseContext, costs: AroundCase['costs']): boolean {
    return this.thoughts.has(this.keyOf(context, costs));
  }

  /** The thought of a case as it now is, or null where nobody foresaw it. Counted. */
  recall(context: CaseContext, costs: AroundCase['costs']): Thought | null {
    const thought = this.thoughts.get(this.keyOf(context, costs)) ?? null;
    if (thought) this.hits++;
    else this.misses++;
    return thought;
  }

  keep(context: CaseContext, costs: AroundCase['costs'], { reasoning, ranking }: Thought): void {
    this.kept++;
    this.thoughts.set(this.keyOf(context, costs), { reasoning, ranking });
    const [oldest] = this.thoughts.keys();
    if (this.thoughts.size > this.most && oldest !== undefined) this.thoughts.delete(oldest);
  }

  /** A context is plain data that survives JSON, in whose findings the order counts. Of a number the reasoning reads the band. */
  private keyOf(context: CaseContext, costs: AroundCase['costs']): string {
    const findings = Object.entries(context.findings).map(([id, value]) => [id, this.bandOf(id, value)]);
    return JSON.stringify([{ ...context, findings: Object.fromEntries(findings) as unknown }, costs]);
  }

  private bandOf(observation: string, value: string | number): string | number {
    if (typeof value === 'string') return value;
    const level = levelOfFinding(this.knowledge, observation, value);
    return this.knowledge.levelsOf(observation)[level] ?? value;
  }
}
