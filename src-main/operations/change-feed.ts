import type { Change } from '../../src-core/contract/change.ts';

/** What was written in this process, told to whoever follows. Raised by the dispatcher alone, once a call has committed. */
export class ChangeFeed {
  readonly #listeners = new Set<(change: Change) => void>();

  /** Listens until the function returned is called. */
  readonly follow = (listener: (change: Change) => void): (() => void) => {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  };

  /** A listener that fails keeps nobody else from hearing it, nor the call from its answer. */
  readonly raise = (change: Change): void => {
    for (const listener of [...this.#listeners])
      try {
        listener(change);
      } catch {
        // Whoever listens is gone; its host takes it out.
      }
  };
}
