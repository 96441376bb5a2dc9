import { parentPort, workerData } from 'node:worker_threads';
import type { ForeseenCounts } from '../../src-core/session/foreseen.ts';
import { readKnowledge } from '../knowledge/read-knowledge.ts';
import type { LookedMessage, TaskMessage, WorkerMessage, WorkerStart } from './messages.ts';
import { LookAhead } from './look-ahead.ts';
import { runTask } from './tasks.ts';

const { folder, programVersion, looksAhead } = workerData as WorkerStart;
const knowledge = readKnowledge(folder, programVersion);

const post = (message: WorkerMessage) => parentPort?.postMessage(message);

const turns = {
  nowMs: () => performance.now(),
  later: (work: () => void, afterMs: number) => {
    const timer = setTimeout(work, afterMs);
    return () => clearTimeout(timer);
  },
};
const ahead = looksAhead ? new LookAhead(knowledge, turns, tellRested) : null;

function tellRested(counts: ForeseenCounts): void {
  post({ kind: 'rested', counts });
}

parentPort?.on('message', (message: TaskMessage | LookedMessage) => {
  ahead?.begun();
  if (message.kind === 'task') run(message);
  else ahead?.looked(message.step, message.around);
  ahead?.ended();
});

function run({ id, name, args }: TaskMessage): void {
  const onProgress = (share: number) => post({ id, kind: 'progress', share });
  try {
    const foreseen = ahead?.foreseen ?? null;
    const value = runTask({ knowledge, onProgress, foreseen }, name, args as never);
    post({ id, kind: 'done', value });
    ahead?.answered(name, args, value);
  } catch (error) {
    post({ id, kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
}
