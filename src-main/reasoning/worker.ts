import { parentPort, workerData } from 'node:worker_threads';
import { readKnowledge } from '../knowledge/read-knowledge.ts';
import type { ResultMessage, TaskMessage, WorkerStart } from './messages.ts';
import { runTask } from './tasks.ts';

const { folder, programVersion } = workerData as WorkerStart;
const knowledge = readKnowledge(folder, programVersion);

parentPort?.on('message', ({ id, name, args }: TaskMessage) => {
  parentPort?.postMessage(answer());

  function answer(): ResultMessage {
    try {
      return { id, ok: true, value: runTask(knowledge, name, args as never) };
    } catch (error) {
      return { id, ok: false, message: error instanceof Error ? error.message : String(error) };
    }
  }
});
