import type { ForeseenCounts } from '../../src-core/session/foreseen.ts';
import type { TaskName } from './tasks.ts';

/** What a worker is started with. */
export interface WorkerStart {
  readonly folder: string;
  readonly programVersion: string;
  /** Whether it thinks ahead while it has nothing to do. */
  readonly looksAhead: boolean;
}

export interface TaskMessage {
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
