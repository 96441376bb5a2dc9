/**
 * Chances adjusted for having looked at all of them (Benjamini and Hochberg, J. R. Statist. Soc. B 57, 1995, 289-300), in the
 * order given: taking all at or below q as real, at most the share q of those taken is expected to be chance.
 */
export function adjustedChances(chances: readonly number[], looks = chances.length): readonly number[] {
  if (!(looks >= chances.length))
    throw new RangeError(`${chances.length} chances cannot come of ${looks} looks`);
  const order = chances.map((_, index) => index).sort((a, b) => (chances[b] ?? 0) - (chances[a] ?? 0));
  const adjusted = new Array<number>(chances.length).fill(1);
  let least = 1;
  order.forEach((index, fromTop) => {
    const rank = chances.length - fromTop;
    least = Math.min(least, ((chances[index] ?? 1) * looks) / rank);
    adjusted[index] = least;
  });
  return adjusted;
}

/** How many of the chances are taken as real at the level `q`. */
export function discoveries(chances: readonly number[], q: number): number {
  return adjustedChances(chances).filter((one) => one <= q).length;
}

/**
 * The two-stage procedure (Benjamini, Krieger and Yekutieli, Biometrika 93, 2006, 491-507): the first stage estimates how
 * many are chance, the second spends the level on those. `isIterated` goes on until nothing changes.
 */
export function twoStageDiscoveries(chances: readonly number[], q: number, isIterated = false): number {
  const level = q / (1 + q);
  const all = chances.length;
  const sorted = chances.toSorted((a, b) => a - b);
  const stepUp = (remaining: number) =>
    sorted.findLastIndex((chance, i) => chance <= (level * (i + 1)) / remaining) + 1;
  let taken = stepUp(all);
  while (taken > 0 && taken < all) {
    const next = stepUp(all - taken);
    if (next === taken) break;
    taken = next;
    if (!isIterated) break;
  }
  return taken;
}

/** Holm's step-down procedure (Scand. J. Statist. 6, 1979, 65-70): how many are real if not one may be chance. */
export function holmDiscoveries(chances: readonly number[], level: number): number {
  const sorted = chances.toSorted((a, b) => a - b);
  const firstKept = sorted.findIndex((chance, i) => chance > level / (sorted.length - i));
  return firstKept < 0 ? sorted.length : firstKept;
}

/**
 * Which of several weights of evidence (each at least 0, with mean at most 1 where there is nothing) are taken as real at the
 * level `q`, however they hang together: e-BH (Wang and Ramdas, J. R. Statist. Soc. B 84, 2022, 822-852).
 */
export function weightsThatStand(weights: readonly number[], q: number): readonly boolean[] {
  const order = weights.map((_, i) => i).sort((a, b) => (weights[b] ?? 0) - (weights[a] ?? 0));
  const last = order.findLastIndex((index, i) => (weights[index] ?? 0) * (i + 1) * q >= weights.length);
  const standing = new Set(order.slice(0, last + 1));
  return weights.map((_, index) => standing.has(index));
}
