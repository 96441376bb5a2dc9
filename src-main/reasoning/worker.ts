import { parentPort, workerData } from 'node:worker_threads';
import { readKnowledge } from '../knowledge/read-knowledge.ts';
import type { TaskMessage, WorkerMessage, WorkerStart } from './messages.ts';
import { runTask } from './tasks.ts';

const { folder, programVersion } = workerData as WorkerStart;
const knowledge = readKnowledge(folder, programVersion);

const post = (message: WorkerMessage) => parentPort?.postMessage(message);

parentPort?.on('message', ({ id, name, args }: TaskMessage) => {
  const onProgress = (share: number) => post({ id, kind: 'progress', share });
  try {
    post({ id, kind: 'done', value: runTask({ knowledge, onProgress }, name, args as never) });
  } catch (error) {
    post({ id, kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
});
