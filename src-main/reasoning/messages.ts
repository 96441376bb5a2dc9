import type { ForeseenCounts } from '../../src-core/session/foreseen.ts';
import type { AroundCase, CaseStep } from '../../src-core/session/case-step.ts';
import type { TaskName } from './tasks.ts';

/** What a worker is started with. */
export interface WorkerStart {
  readonly folder: string;
  readonly programVersion: string;
  /** Whether it thinks ahead while it has nothing to do. */
  readonly looksAhead: boolean;
}

/** Somebody looks at a case and may answer next; nothing is asked, and nothing comes back. */
export interface LookedMessage {
  readonly kind: 'looked';
  readonly step: CaseStep;
  readonly around: AroundCase;
}

export interface TaskMessage {
  readonly kind: 'task';
  readonly id: number;
  readonly name: TaskName;
  readonly args: readonly unknown[];
}

export type WorkerMessage =
  | { readonly id: number; readonly kind: 'progress'; readonly share: number }
  | { readonly id: number; readonly kind: 'done'; readonly value: unknown }
  | { readonly id: number; readonly kind: 'failed'; readonly message: string }
  /** There is nothing more to do, nor to think ahead. */
  | { readonly kind: 'rested'; readonly counts: ForeseenCounts };
