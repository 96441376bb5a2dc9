import { Worker } from 'node:worker_threads';
import type { ResultMessage, TaskMessage, WorkerStart } from './messages.ts';
import type { Reasoner } from './reasoner.ts';
import type { TaskName } from './tasks.ts';

/** Tasks that take a second and more: they have a thread of their own, so that no answer at a machine waits for them. */
const LONG: ReadonlySet<TaskName> = new Set(['second-thoughts', 'training-view', 'demo-cases']);

/** Thinks in two threads, one for answers and one for long work, started when first needed. */
export function reasonerInWorkers(file: string, start: WorkerStart): Reasoner {
  const answers = new ThinkingThread(file, start);
  const longWork = new ThinkingThread(file, start);
  return {
    run: (name, ...args) => (LONG.has(name) ? longWork : answers).run(name, args) as Promise<never>,
    close: async () => {
      await Promise.all([answers.close(), longWork.close()]);
    },
  };
}

interface Waiting {
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: Error) => void;
}

/** One worker thread. It is started anew after it died; what it was asked then is answered with an error. */
class ThinkingThread {
  readonly #file: string;
  readonly #start: WorkerStart;
  readonly #waiting = new Map<number, Waiting>();
  #worker: Worker | null = null;
  #lastId = 0;

  constructor(file: string, start: WorkerStart) {
    this.#file = file;
    this.#start = start;
  }

  run(name: TaskName, args: readonly unknown[]): Promise<unknown> {
    const worker = (this.#worker ??= this.#begin());
    const id = ++this.#lastId;
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      // Only work under way keeps the process alive.
      worker.ref();
      worker.postMessage({ id, name, args } satisfies TaskMessage);
    });
  }

  async close(): Promise<void> {
    await this.#worker?.terminate();
  }

  #begin(): Worker {
    const worker = new Worker(this.#file, { workerData: this.#start });
    worker.on('message', (result: ResultMessage) => {
      const waiting = this.#waiting.get(result.id);
      this.#waiting.delete(result.id);
      if (this.#waiting.size === 0) worker.unref();
      if (result.ok) waiting?.resolve(result.value);
      else waiting?.reject(new Error(result.message));
    });
    worker.on('error', (error) => this.#ended(worker, error));
    worker.on('exit', () => this.#ended(worker, new Error('the reasoning thread ended')));
    return worker;
  }

  #ended(worker: Worker, error: unknown): void {
    if (this.#worker !== worker) return;
    this.#worker = null;
    const waiting = [...this.#waiting.values()];
    this.#waiting.clear();
    for (const { reject } of waiting) reject(error instanceof Error ? error : new Error(String(error)));
  }
}
