import { gammaAtMost } from './gamma-distribution.ts';
import type { CountedRate } from './rate-comparison.ts';

/** Centre of a chart, and the limits between which points lie while nothing has changed. */
export interface ChartLimits {
  readonly centre: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Limits three standard deviations from the mean of counts taken over like exposures (NIST/SEMATECH e-Handbook 6.3.3.1). A
 * count is out when it lies beyond a limit, not when it lies on it.
 */
export function countLimits(counts: readonly number[]): ChartLimits {
  const centre = mean(counts);
  return limitsAround(centre, 3 * Math.sqrt(centre));
}

/** The same for rates over unlike exposures (u-chart): one pair of limits for each. All exposures lie above 0. */
export function rateLimits(periods: readonly CountedRate[]): readonly ChartLimits[] {
  const cases = periods.reduce((sum, one) => sum + one.count, 0);
  const centre = cases / periods.reduce((sum, one) => sum + one.exposure, 0);
  return periods.map(({ exposure }) => limitsAround(centre, 3 * Math.sqrt(centre / exposure)));
}

/** Beyond each limit lies what a normal variable does in 13.5 of 10,000 cases: three standard deviations. */
const BEYOND_THREE_SIGMA = 0.00134989803163009;

/**
 * The same with limits from the Poisson distribution itself, as rare on either side as three standard deviations are: where
 * few are expected the usual limits raise false alarms. Counts on a limit are within.
 */
export function exactRateLimits(periods: readonly CountedRate[]): readonly ChartLimits[] {
  const cases = periods.reduce((sum, one) => sum + one.count, 0);
  const centre = cases / periods.reduce((sum, one) => sum + one.exposure, 0);
  return periods.map(({ exposure }) => {
    const mean = centre * exposure;
    const high = firstWhere((count) => atMost(count, mean) >= 1 - BEYOND_THREE_SIGMA);
    const low = firstWhere((count) => atMost(count, mean) > BEYOND_THREE_SIGMA);
    return { centre, low: low / exposure, high: high / exposure };
  });
}

/** Chance of at most so many where `mean` are expected, whatever their size. */
function atMost(count: number, mean: number): number {
  return 1 - gammaAtMost({ shape: count + 1, rate: 1 }, mean);
}

/** The first whole number from 0 for which something holds that holds for all larger ones. */
function firstWhere(holds: (count: number) => boolean): number {
  let high = 1;
  while (!holds(high)) high *= 2;
  let low = -1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * Limits of the number of good prints between two failures (g-chart: Kaminsky and others, J. Quality Technology 24, 1992,
 * 63-69).
 */
export function goodBetweenLimits(between: readonly number[]): ChartLimits {
  const centre = mean(between);
  return limitsAround(centre, 3 * Math.sqrt(centre * (centre + 1)));
}

/**
 * Limits of the exposure between two cases (t-chart), from the exponential distribution itself and as rare as three standard
 * deviations are: Montgomery, Introduction to Statistical Quality Control, 7.3.5. `meanBetween` lies above 0.
 */
export function timeBetweenLimits(meanBetween: number): ChartLimits {
  if (!(meanBetween > 0)) throw new RangeError(`the time between cases lies above 0, not at ${meanBetween}`);
  return {
    centre: meanBetween * Math.LN2,
    low: -meanBetween * Math.log1p(-BEYOND_THREE_SIGMA),
    high: -meanBetween * Math.log(BEYOND_THREE_SIGMA),
  };
}

/** Failures of prints: `failed` of `all`. */
export interface Failed {
  readonly failed: number;
  readonly all: number;
}

/**
 * Limits of shares where days differ by more than chance (Laney's p' chart, Quality Engineering 14, 2002, 531-537): the usual
 * three standard deviations, widened by how much neighbouring points differ. At least two points.
 */
export function spreadShareLimits(points: readonly Failed[]): {
  readonly share: number;
  /** Distance of each point from the mean, in standard deviations of its own. */
  readonly distances: readonly number[];
  /** 1 where points differ as chance lets them. */
  readonly spread: number;
  limitsFor(all: number): ChartLimits;
} {
  const share =
    points.reduce((sum, one) => sum + one.failed, 0) / points.reduce((sum, one) => sum + one.all, 0);
  const deviationFor = (all: number) => Math.sqrt((share * (1 - share)) / all);
  const distances = points.map(({ failed, all }) => (failed / all - share) / deviationFor(all));
  const ranges = distances.slice(1).map((one, i) => Math.abs(one - (distances[i] ?? one)));
  /** Mean range of two draws from a normal distribution, in its standard deviations. */
  const expectedRange = 1.128;
  const spread = mean(ranges) / expectedRange;
  return {
    share,
    distances,
    spread,
    limitsFor: (all) => limitsAround(share, 3 * deviationFor(all) * spread),
  };
}

/**
 * Sums of how far values lay above and below their target, less an allowance (tabular CUSUM: Montgomery and Runger, Applied
 * Statistics and Probability for Engineers, 16-8). A sum above the chosen limit says that the mean has moved.
 */
export function cumulativeSums(
  values: readonly number[],
  target: number,
  allowance: number,
): readonly { readonly above: number; readonly below: number }[] {
  let above = 0;
  let below = 0;
  return values.map((value) => {
    above = Math.max(0, value - (target + allowance) + above);
    below = Math.max(0, target - allowance - value + below);
    return { above, below };
  });
}

function limitsAround(centre: number, distance: number): ChartLimits {
  return { centre, low: Math.max(0, centre - distance), high: centre + distance };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}
