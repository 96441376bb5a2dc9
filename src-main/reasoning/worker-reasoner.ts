import { Worker } from 'node:worker_threads';
import type { ForeseenCounts } from '../../src-core/session/foreseen.ts';
import { UNWATCHED, type Watch } from '../../src-core/contract/watch.ts';
import type { LookedMessage, TaskMessage, WorkerMessage, WorkerStart } from './messages.ts';
import type { Reasoner } from './reasoner.ts';
import type { TaskName } from './tasks.ts';

/**
 * Tasks that take a second and more (an earlier guide is compiled first): they have a thread of their own, so that no answer at
 * a machine waits for them.
 */
const LONG: ReadonlySet<TaskName> = new Set([
  'second-thoughts',
  'training-view',
  'demo-cases',
  'under-earlier-guide',
]);

export interface WorkerOptions {
  /** Whether the thread for answers thinks ahead of what it is likely asked next; it does when left out. */
  readonly looksAhead?: boolean;
  /** Told whenever that thread has nothing more to do, with what came of thinking ahead so far. */
  readonly onRested?: (counts: ForeseenCounts) => void;
}

/** Thinks in two threads, one for answers and one for long work, started when first needed. */
export function reasonerInWorkers(
  file: string,
  start: Pick<WorkerStart, 'folder' | 'programVersion'>,
  { looksAhead = true, onRested }: WorkerOptions = {},
): Reasoner {
  const answers = new ThinkingThread(file, { ...start, looksAhead }, onRested);
  const longWork = new ThinkingThread(file, { ...start, looksAhead: false });
  const runWatched: Reasoner['runWatched'] = (name, watch, ...args) =>
    (LONG.has(name) ? longWork : answers).run(name, args, watch) as Promise<never>;
  return {
    run: (name, ...args) => runWatched(name, UNWATCHED, ...args),
    runWatched,
    looked: (step, around) => {
      if (looksAhead) answers.tell({ kind: 'looked', step, around });
    },
    close: async () => {
      await Promise.all([answers.close(), longWork.close()]);
    },
  };
}

interface Question extends TaskMessage {
  readonly watch: Watch;
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: Error) => void;
}

/**
 * One worker thread, one question at a time. It is started anew after it died, with what was asked then answered by an error,
 * or after the question it was at was stopped: a thread that computes cannot be told anything else.
 */
class ThinkingThread {
  readonly #file: string;
  readonly #start: WorkerStart;
  readonly #onRested: WorkerOptions['onRested'];
  #queue: Question[] = [];
  #current: Question | null = null;
  #worker: Worker | null = null;
  #lastId = 0;

  constructor(file: string, start: WorkerStart, onRested?: WorkerOptions['onRested']) {
    this.#file = file;
    this.#start = start;
    this.#onRested = onRested;
  }

  run(name: TaskName, args: readonly unknown[], watch: Watch): Promise<unknown> {
    const { signal } = watch;
    const id = ++this.#lastId;
    return new Promise((resolve, reject) => {
      signal.throwIfAborted();
      const stop = () => this.#stop(id);
      const settled =
        <A>(then: (value: A) => void) =>
        (value: A) => {
          signal.removeEventListener('abort', stop);
          then(value);
        };
      signal.addEventListener('abort', stop);
      this.#queue.push({
        kind: 'task',
        id,
        name,
        args,
        watch,
        resolve: settled(resolve),
        reject: settled(reject),
      });
      this.#askNext();
    });
  }

  /** Tells the thread something that it answers nothing to. It keeps no process alive. */
  tell(message: LookedMessage): void {
    const isNew = this.#worker === null;
    const worker = (this.#worker ??= this.#begin());
    if (isNew) worker.unref();
    worker.postMessage(message);
  }

  async close(): Promise<void> {
    await this.#worker?.terminate();
  }

  #askNext(): void {
    if (this.#current) return;
    this.#current = this.#queue.shift() ?? null;
    if (!this.#current) {
      // Only work under way keeps the process alive.
      this.#worker?.unref();
      return;
    }
    const question = this.#current;
    const { id, name, args } = question;
    try {
      const worker = (this.#worker ??= this.#begin());
      worker.ref();
      worker.postMessage({ kind: 'task', id, name, args } satisfies TaskMessage);
    } catch (error) {
      // What cannot be sent must not hold up what comes after it.
      this.#current = null;
      question.reject(error instanceof Error ? error : new Error(String(error)));
      this.#askNext();
    }
  }

  #stop(id: number): void {
    const question = this.#current?.id === id ? this.#current : this.#queue.find((one) => one.id === id);
    if (!question) return;
    question.reject(new Error('stopped', { cause: question.watch.signal.reason }));
    this.#queue = this.#queue.filter((one) => one !== question);
    if (this.#current !== question) return;
    const worker = this.#worker;
    this.#worker = null;
    this.#current = null;
    void worker?.terminate();
    this.#askNext();
  }

  #begin(): Worker {
    const worker = new Worker(this.#file, { workerData: this.#start });
    worker.on('message', (message: WorkerMessage) => {
      const current = this.#current;
      if (message.kind === 'rested') {
        if (!current) this.#onRested?.(message.counts);
        return;
      }
      if (this.#worker !== worker || message.id !== current?.id) return;
      if (message.kind === 'progress') {
        current.watch.onProgress(message.share);
        return;
      }
      this.#current = null;
      if (message.kind === 'done') current.resolve(message.value);
      else current.reject(new Error(message.message));
      this.#askNext();
    });
    worker.on('error', (error) => this.#ended(worker, error));
    worker.on('exit', () => this.#ended(worker, new Error('the reasoning thread ended')));
    return worker;
  }

  #ended(worker: Worker, error: unknown): void {
    if (this.#worker !== worker) return;
    this.#worker = null;
    const waiting = [...(this.#current ? [this.#current] : []), ...this.#queue];
    this.#current = null;
    this.#queue = [];
    for (const { reject } of waiting) reject(error instanceof Error ? error : new Error(String(error)));
  }
}
