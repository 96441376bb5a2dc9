import type { ChangeTopic } from '../../src-core/contract/change.ts';
import type { ChangeFeed } from './change-feed.ts';

/**
 * An answer that is the same for everybody until something of it changes: when fifty screens ask at once, because one of them wrote,
 * it is worked out once. Whoever wrote gets what was written: the change is raised before the writing call is answered.
 */
export class SharedAnswer<T> {
  #answer: Promise<T> | null = null;

  constructor(changes: ChangeFeed, topic: ChangeTopic) {
    changes.follow(({ topics }) => {
      if (topics.includes(topic)) this.#answer = null;
    });
  }

  /** The answer at hand, or a new one. One that fails is not kept. */
  get(work: () => Promise<T>): Promise<T> {
    if (this.#answer) return this.#answer;
    const answer = work();
    this.#answer = answer;
    answer.catch(() => {
      if (this.#answer === answer) this.#answer = null;
    });
    return answer;
  }
}
