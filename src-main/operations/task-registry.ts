import { UNWATCHED, type Watch } from '../../src-core/contract/watch.ts';
import { refusals } from '../../src-core/words/en/refusals.ts';
import type { Message } from '../../src-core/words/message.ts';
import { DomainError } from './domain-error.ts';

interface UnderWay {
  readonly stop: AbortController;
  share: number;
}

/** Long work that a screen looks after by an id of its own: how far it is, and an end before its time. */
export class TaskRegistry {
  private readonly underWay = new Map<string, UnderWay>();
  private readonly alone = new Set<string>();

  /** Does the work; without an id nobody looks after it. Work that was stopped is refused. */
  async run<T>(workId: string | null, work: (watch: Watch) => Promise<T>): Promise<T> {
    if (workId === null) return work(UNWATCHED);
    if (this.underWay.has(workId)) throw new DomainError('refused', refusals.underWay());
    const one: UnderWay = { stop: new AbortController(), share: 0 };
    this.underWay.set(workId, one);
    try {
      return await work({ signal: one.stop.signal, onProgress: (share) => (one.share = share) });
    } catch (error) {
      if (one.stop.signal.aborted) throw new DomainError('refused', refusals.stopped());
      throw error;
    } finally {
      this.underWay.delete(workId);
    }
  }

  /** Does work on something that bears only one hand at a time; a second one is refused. */
  async runAlone<T>(what: string, refusal: Message, work: () => Promise<T>): Promise<T> {
    if (this.alone.has(what)) throw new DomainError('refused', refusal);
    this.alone.add(what);
    try {
      return await work();
    } finally {
      this.alone.delete(what);
    }
  }

  /** Share done, 0 to 1; null when it is over or never was. */
  shareOf(workId: string): number | null {
    return this.underWay.get(workId)?.share ?? null;
  }

  stop(workId: string): void {
    this.underWay.get(workId)?.stop.abort();
  }
}
