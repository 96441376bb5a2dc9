export interface RateChange {
  /**
   * How many times likelier the cases lie as they do under a change of rate than under none. Where nothing changed its mean
   * over all shops is 1: as large as w it is in at most 1 shop of w (Ville's inequality).
   */
  readonly weight: number;
  /** When, in exposure from the start: the middle of what is believed, and its central 95 % interval. */
  readonly at: number;
  readonly low: number;
  readonly high: number;
  /** Rate after over rate before: the middle of what is believed, and its central 95 % interval. */
  readonly ratio: number;
  readonly ratioLow: number;
  readonly ratioHigh: number;
}

/** Changes that are thought of: from a tenth to ten times the rate, evenly in logarithms. */
const LARGEST_RATIO = 10;
const RATIOS = 24;
const LOG_RATIOS = Array.from(
  { length: RATIOS },
  (_, i) => Math.log(LARGEST_RATIO) * ((2 * i + 1) / RATIOS - 1),
);
/** ln of a weight, as a share of the largest, that changes no digit of any sum. */
const NEGLIGIBLE = -60;
/** Places of the change that are looked at: the middles of so many like stretches. */
const PLACES = 400;
/** By place and ratio: ln of the mean rate over all exposure, in rates before the change. */
const LOG_MEANS = Float64Array.from({ length: PLACES * RATIOS }, (_, cell) => {
  const share = (Math.floor(cell / RATIOS) + 0.5) / PLACES;
  return Math.log(share + (1 - share) * Math.exp(LOG_RATIOS[cell % RATIOS] ?? 0));
});
/** By place: ln of the share of all exposure that lies before it. What lies after one lies before its mirror image. */
const LOG_SHARES = Float64Array.from({ length: PLACES }, (_, place) => Math.log((place + 0.5) / PLACES));
const LEAST_RATIO = Math.exp(LOG_RATIOS[0] ?? 0);
const MOST_RATIO = Math.exp(LOG_RATIOS.at(-1) ?? 0);

/**
 * When the rate of cases changed, if it did, from the places (0 to `exposure`, in print hours or the like) at which cases
 * came. Exact over the grid: place and ratio have even priors, the rate itself drops out as only the share of cases before
 * the change counts (after Raftery and Akman, Biometrika 73, 1986, 85-89, with the ratio in the place of two rates). Null for
 * fewer than three cases, of which nothing can be told, and where the weight is sure to stay below `leastWeight`. Throws RangeError for
 * places outside.
 */
export function rateChange(places: readonly number[], exposure: number, leastWeight = 0): RateChange | null {
  if (places.length < 3 || !(exposure > 0)) return null;
  if (!places.every((place) => place >= 0 && place <= exposure))
    throw new RangeError(`cases lie between 0 and ${exposure}`);
  const sorted = places.toSorted((a, b) => a - b);
  const all = sorted.length;
  const step = exposure / PLACES;
  const befores = new Int32Array(PLACES);
  let before = 0;
  for (let place = 0; place < PLACES; place++) {
    while (before < all && (sorted[before] ?? 0) < (place + 0.5) * step) before++;
    befores[place] = before;
  }
  if (leastWeight > 0 && mostThatItWeighs(befores, all) < leastWeight) return null;
  const logWeights = new Float64Array(PLACES * RATIOS);
  let largest = -Infinity;
  for (let place = 0; place < PLACES; place++) {
    const after = all - (befores[place] ?? 0);
    // Density of the places under this change over that under none, given how many cases there are.
    for (let ratio = 0; ratio < RATIOS; ratio++) {
      const cell = place * RATIOS + ratio;
      const logWeight = after * (LOG_RATIOS[ratio] ?? 0) - all * (LOG_MEANS[cell] ?? 0);
      logWeights[cell] = logWeight;
      if (logWeight > largest) largest = logWeight;
    }
  }
  const byPlace = new Float64Array(PLACES);
  const byRatio = new Float64Array(RATIOS);
  let total = 0;
  for (let place = 0; place < PLACES; place++) {
    let here = 0;
    for (let ratio = 0; ratio < RATIOS; ratio++) {
      const below = (logWeights[place * RATIOS + ratio] ?? 0) - largest;
      // Lost in the rounding of any sum that the largest is in.
      if (below < NEGLIGIBLE) continue;
      const weight = Math.exp(below);
      here += weight;
      byRatio[ratio] = (byRatio[ratio] ?? 0) + weight;
      total += weight;
    }
    byPlace[place] = here;
  }
  const placeAt = (share: number) => quantile(byPlace, total, share) * step;
  const ratioAt = (share: number) =>
    Math.exp(Math.log(LARGEST_RATIO) * ((2 * quantile(byRatio, total, share)) / RATIOS - 1));
  return {
    weight: (total / (PLACES * RATIOS)) * Math.exp(largest),
    at: placeAt(0.5),
    low: placeAt(0.025),
    high: placeAt(0.975),
    ratio: ratioAt(0.5),
    ratioLow: ratioAt(0.025),
    ratioHigh: ratioAt(0.975),
  };
}

/**
 * No change weighs more than this: the weight if at every place all ratios weighed what the heaviest of them could, from the
 * number of cases before each place. A weight is largest where the rates before and after are as the cases say, and falls to either side.
 */
function mostThatItWeighs(befores: Int32Array, all: number): number {
  let sum = 0;
  let [known, logBefore, logAfter] = [-1, 0, 0];
  for (let place = 0; place < PLACES; place++) {
    const before = befores[place] ?? 0;
    const after = all - before;
    if (before !== known) {
      known = before;
      // 0 ln 0 counts as 0.
      logBefore = before === 0 ? 0 : before * Math.log(before / all);
      logAfter = after === 0 ? 0 : after * Math.log(after / all);
    }
    const share = (place + 0.5) / PLACES;
    // The likeliest ratio of rates is this one over the other.
    const [rateAfter, rateBefore] = [after * share, before * (1 - share)];
    const end =
      rateAfter < rateBefore * LEAST_RATIO ? 0 : rateAfter > rateBefore * MOST_RATIO ? RATIOS - 1 : -1;
    const logWeight =
      end < 0
        ? logBefore +
          logAfter -
          before * (LOG_SHARES[place] ?? 0) -
          after * (LOG_SHARES[PLACES - 1 - place] ?? 0)
        : after * (LOG_RATIOS[end] ?? 0) - all * (LOG_MEANS[place * RATIOS + end] ?? 0);
    sum += Math.exp(logWeight);
  }
  return sum / PLACES;
}

/** Where, in cells and parts of one, the sum from the first cell on reaches this share of the total. */
function quantile(cells: Float64Array, total: number, share: number): number {
  let soFar = 0;
  for (const [index, cell] of cells.entries()) {
    if (soFar + cell >= share * total) return index + (share * total - soFar) / cell;
    soFar += cell;
  }
  return cells.length;
}
