/** An open check, and what it would show under each of two causes. */
export interface OpenToTell<T> {
  readonly observation: T;
  /** Distribution over its levels if it is the first of the two, and if it is the second; least level first. */
  readonly ifFirst: ArrayLike<number>;
  readonly ifSecond: ArrayLike<number>;
}

/** How well an open observation tells two causes apart. */
export interface Separation<T> {
  readonly observation: T;
  /** Expected information, in bits, on which of the two it is if it is just one of them. At most 1. */
  readonly bits: number;
}

/** An observation that tells less than this is no way to tell two causes apart. */
const LEAST_BITS = 1e-3;
/** Of the checks that tell at least this share of what the best tells, the quickest is proposed. Our own rule. */
const GOOD_SHARE = 0.5;

/**
 * The one answer to "which check tells these two causes apart": the checks that do, best first, by mutual information of
 * answer and cause, I = Σ p log2(p / m), each hypothesis weighted by its share (Shannon 1948; Cover & Thomas, Elements of
 * Information Theory, 2.3). `shareOfFirst` is the first cause's probability, 0 to 1, if it is one of the two; half where
 * nothing is known of a case. `leastBits` leaves out what tells less.
 */
export function tellingApart<T>(
  open: readonly OpenToTell<T>[],
  shareOfFirst = 0.5,
  leastBits = LEAST_BITS,
): readonly Separation<T>[] {
  return open
    .map(({ observation, ifFirst, ifSecond }) => ({
      observation,
      bits: information(shareOfFirst, ifFirst, ifSecond),
    }))
    .filter(({ bits }) => bits >= leastBits)
    .sort((a, b) => b.bits - a.bits);
}

/**
 * The checks in the order in which a lead would make them: first those that tell at least half as much as the best, the
 * quickest of them first; then the others, best first. `minutesOf` is what a check takes.
 */
export function quickestTelling<T>(
  apart: readonly Separation<T>[],
  minutesOf: (observation: T) => number,
): readonly Separation<T>[] {
  const best = apart.reduce((most, { bits }) => Math.max(most, bits), 0);
  const isGood = ({ bits }: Separation<T>) => bits >= GOOD_SHARE * best;
  return [
    ...apart
      .filter(isGood)
      .toSorted((a, b) => minutesOf(a.observation) - minutesOf(b.observation) || b.bits - a.bits),
    ...apart.filter((one) => !isGood(one)).toSorted((a, b) => b.bits - a.bits),
  ];
}

/** Mutual information, in bits, of an answer and which of two hypotheses holds. */
function information(share: number, ifFirst: ArrayLike<number>, ifSecond: ArrayLike<number>): number {
  let bits = 0;
  for (let level = 0; level < ifFirst.length; level++) {
    const p = ifFirst[level] ?? 0;
    const q = ifSecond[level] ?? 0;
    const mixed = share * p + (1 - share) * q;
    if (share * p > 0) bits += share * p * Math.log2(p / mixed);
    if ((1 - share) * q > 0) bits += (1 - share) * q * Math.log2(q / mixed);
  }
  return Math.max(0, bits);
}
