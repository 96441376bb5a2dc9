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

export type ResultMessage =
  | { readonly id: number; readonly ok: true; readonly value: unknown }
  | { readonly id: number; readonly ok: false; readonly message: string };
