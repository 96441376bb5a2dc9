import type { Change } from '../../src-core/contract/change.ts';
import type { LiveHostApi } from '../../src-core/contract/host-api.ts';

/** A station that is started anew is back within this; until then nobody is told that it is away. */
const PATIENCE_MS = 1500;
/** What comes at once is read once. */
const GATHER_MS = 60;

interface Reader {
  readonly wants: (change: Change) => boolean;
  /** Null: anything may have changed. */
  readonly read: (change: Change | null) => void;
}

/** What changes at other screens, for the screens of this page. */
class LiveChanges {
  /** There is no connection to the station. */
  isLost = $state(false);
  /** The station lets this page in no more. */
  isShutOut = $state(false);
  readonly #readers = new Set<Reader>();
  #patience: ReturnType<typeof setTimeout> | undefined;

  /** Follows a host until the function returned is called. */
  begin(host: LiveHostApi): () => void {
    const unfollow = host.follow((notice) => {
      switch (notice.kind) {
        case 'change':
          for (const { wants, read } of [...this.#readers]) if (wants(notice.change)) read(notice.change);
          break;
        case 'connected':
          clearTimeout(this.#patience);
          this.#patience = undefined;
          this.isLost = false;
          this.isShutOut = false;
          for (const { read } of [...this.#readers]) read(null);
          break;
        case 'shut-out':
          this.isShutOut = true;
          break;
        case 'lost':
          this.#patience ??= setTimeout(() => (this.isLost = true), PATIENCE_MS);
      }
    });
    return () => {
      clearTimeout(this.#patience);
      this.#patience = undefined;
      unfollow();
    };
  }

  /** Reads with every change that is wanted, and once the station is back, until the function returned is called. */
  follow(wants: Reader['wants'], read: Reader['read']): () => void {
    const reader = { wants, read };
    this.#readers.add(reader);
    return () => void this.#readers.delete(reader);
  }

  /** The same for what is read as a whole: one reading at a time, and one more where something changed meanwhile. */
  followTopics(topics: readonly Change['topics'][number][], read: () => Promise<unknown>): () => void {
    return this.follow(({ topics: changed }) => topics.some((one) => changed.includes(one)), gathered(read));
  }
}

export const live = new LiveChanges();

function gathered(read: () => Promise<unknown>): () => void {
  let state: 'idle' | 'asked' | 'reading' | 'reading and asked' = 'idle';
  const begin = () => {
    state = 'asked';
    setTimeout(() => {
      state = 'reading';
      void read().finally(() => {
        const isAskedAgain = state === 'reading and asked';
        state = 'idle';
        if (isAskedAgain) begin();
      });
    }, GATHER_MS);
  };
  return () => {
    if (state === 'idle') begin();
    else if (state === 'reading') state = 'reading and asked';
  };
}
