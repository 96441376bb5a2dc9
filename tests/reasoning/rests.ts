import type { ForeseenCounts } from '../../src-core/session/foreseen.ts';

/** What a reasoning thread says whenever it has nothing more to do, nor to think ahead, and the wait for it. */
export function restsOf() {
  let last: ForeseenCounts = { hits: 0, misses: 0, kept: 0 };
  let told: (counts: ForeseenCounts) => void = () => undefined;
  return {
    /** For `onRested`. */
    tell: (counts: ForeseenCounts) => {
      last = counts;
      told(counts);
    },
    counts: () => last,
    /** The next rest of which this is so; to be asked before something is sent. */
    once: (isSo: (counts: ForeseenCounts) => boolean = () => true) =>
      new Promise<ForeseenCounts>((resolve) => {
        told = (counts) => {
          if (isSo(counts)) resolve(counts);
        };
      }),
  };
}
