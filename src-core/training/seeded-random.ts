/** A source of numbers in [0, 1). */
export type Random = () => number;

/** Mulberry32: 32 bits of state, good enough to draw practice cases, the same everywhere for the same seed. */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** An index drawn in proportion to weights (each >= 0, their sum above 0). */
export function drawIndex(weights: readonly number[], random: Random): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (!(total > 0)) throw new RangeError('nothing to draw from: all weights are zero');
  let left = random() * total;
  for (const [index, weight] of weights.entries()) {
    left -= weight;
    if (left < 0 && weight > 0) return index;
  }
  return weights.findLastIndex((weight) => weight > 0);
}
