import type { HostApi, LiveHostApi } from '../../src-core/contract/host-api.ts';

/** Counts the calls to a host that are not answered yet, so that a screen is shown when what it asked for first is there. */
export class CallsUnderWay {
  #count = 0;
  readonly #waiting = new Set<() => void>();

  /** The same host, its calls counted. */
  watch(host: LiveHostApi): LiveHostApi {
    const call: HostApi['call'] = async (name, input) => {
      this.#count++;
      try {
        return await host.call(name, input);
      } finally {
        this.#count--;
        if (this.#count === 0) for (const wake of [...this.#waiting]) wake();
      }
    };
    return { call, follow: (listener) => host.follow(listener) };
  }

  /** Resolves once every call is answered, and those that an answer led to; after `atMostMs` in any case. */
  async settled(atMostMs: number): Promise<void> {
    const limit = performance.now() + atMostMs;
    // What a screen asks for first it asks for while it is set up; what follows from an answer it asks for at the next turn.
    await nextTurn();
    while (this.#count > 0 && performance.now() < limit) {
      await this.#none(limit - performance.now());
      await nextTurn();
    }
  }

  #none(withinMs: number): Promise<void> {
    return new Promise((resolve) => {
      const wake = () => {
        clearTimeout(timer);
        this.#waiting.delete(wake);
        resolve();
      };
      const timer = setTimeout(wake, withinMs);
      this.#waiting.add(wake);
    });
  }
}

const nextTurn = () => new Promise<void>((resolve) => setTimeout(resolve, 0));
