import { gammaQuantile } from './gamma-distribution.ts';
import type { Gamma } from './gamma-distribution.ts';
import { bisect } from './bisect.ts';

/** Time on test and what failed in it. */
export interface Tested {
  readonly failures: number;
  readonly hours: number;
}

/**
 * Mean time between failures with exact limits for a fixed time on test (NIST/SEMATECH e-Handbook 8.4.5.1). Without a failure
 * there is no mean (null) and only a lower limit, one-sided. Who asks often for a few counts brings a `quantile` that remembers.
 */
export function meanTimeBetween(
  { failures, hours }: Tested,
  confidence = 0.95,
  quantile = gammaQuantile,
): { readonly mean: number | null; readonly low: number; readonly high: number } {
  const tail = (1 - confidence) / 2;
  if (failures === 0) return { mean: null, low: hours / -Math.log(1 - confidence), high: Infinity };
  return {
    mean: hours / failures,
    low: hours / quantile({ shape: failures + 1, rate: 1 }, 1 - tail),
    high: hours / quantile({ shape: failures, rate: 1 }, tail),
  };
}

/**
 * The gamma distribution of a failure rate that a shop means by "even odds of `evenHours`, and `sure` (0–1) of `sureHours`"
 * between failures (NIST/SEMATECH e-Handbook 8.2.5, the 50/95 method where sure is 0.95).
 */
export function rateBelief(evenHours: number, sureHours: number, sure = 0.95): Gamma {
  const quotient = (shape: number) =>
    gammaQuantile({ shape, rate: 1 }, sure) / gammaQuantile({ shape, rate: 1 }, 0.5);
  const wanted = evenHours / sureHours;
  const shape = bisect((one) => quotient(one) <= wanted, 0.05, 500);
  return { shape, rate: gammaQuantile({ shape, rate: 1 }, 0.5) * evenHours };
}

/**
 * Hours on test that confirm a mean time between failures of `goalHours` at `confidence`, allowing so many failures, on top
 * of what is believed (NIST/SEMATECH e-Handbook 8.3.1.5); without a belief the classical plan.
 */
export function hoursToConfirm(
  goalHours: number,
  confidence: number,
  failures: number,
  belief: Gamma | null = null,
): number {
  const shape = belief === null ? failures + 1 : belief.shape + failures;
  return goalHours * gammaQuantile({ shape, rate: 1 }, confidence) - (belief?.rate ?? 0);
}
