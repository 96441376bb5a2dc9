import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { runTask, type TaskArguments, type TaskName, type TaskResult } from './tasks.ts';

/** Does the thinking for the operations, in this thread or in another. */
export interface Reasoner {
  run<N extends TaskName>(name: N, ...args: TaskArguments<N>): Promise<TaskResult<N>>;
  /** Ends what runs; a run under way is rejected. */
  close(): Promise<void>;
}

/** Thinks in this thread: for the command line, where nobody else waits, and for tests. */
export function reasonerInThisThread(knowledge: Knowledge): Reasoner {
  return {
    // Async, so that a task that throws becomes a rejection, as from a worker.
    run: async (name, ...args) => runTask(knowledge, name, args),
    close: () => Promise.resolve(),
  };
}
