import type { TaskName } from './tasks.ts';

/** What a worker is started with. */
export interface WorkerStart {
  readonly folder: string;
  readonly programVersion: string;
}

export interface TaskMessage {
  readonly id: number;
  readonly name: TaskName;
  readonly args: readonly unknown[];
}

export type WorkerMessage =
  | { readonly id: number; readonly kind: 'progress'; readonly share: number }
  | { readonly id: number; readonly kind: 'done'; readonly value: unknown }
  | { readonly id: number; readonly kind: 'failed'; readonly message: string };
