import { UNWATCHED, type Watch } from '../../src-core/contract/watch.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { AroundCase, CaseStep } from '../../src-core/session/case-step.ts';
import { runTask, type TaskArguments, type TaskName, type TaskResult } from './tasks.ts';

/** Does the thinking for the operations, in this thread or in another. */
export interface Reasoner {
  run<N extends TaskName>(name: N, ...args: TaskArguments<N>): Promise<TaskResult<N>>;
  /** The same for long work: it tells how far it is, and is rejected with the signal's reason when that ends it. */
  runWatched<N extends TaskName>(name: N, watch: Watch, ...args: TaskArguments<N>): Promise<TaskResult<N>>;
  /** Somebody looks at a case and may answer next: where thinking ahead is done, it begins. Waits for nothing. */
  looked(step: CaseStep, around: AroundCase): void;
  /** Ends what runs; a run under way is rejected. */
  close(): Promise<void>;
}

/** Thinks in this thread: for the command line, where nobody else waits, and for tests. */
export function reasonerInThisThread(knowledge: Knowledge): Reasoner {
  // Async, so that a task that throws becomes a rejection, as from a worker.
  const runWatched: Reasoner['runWatched'] = async (name, { signal, onProgress }, ...args) => {
    const stoppable = (share: number) => {
      signal.throwIfAborted();
      onProgress(share);
    };
    signal.throwIfAborted();
    return runTask({ knowledge, onProgress: stoppable, foreseen: null }, name, args);
  };
  return {
    run: (name, ...args) => runWatched(name, UNWATCHED, ...args),
    runWatched,
    looked: () => undefined,
    close: () => Promise.resolve(),
  };
}
