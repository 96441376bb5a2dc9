import { rateChange } from '../statistics/change-point.ts';
import { timeBetweenLimits } from '../statistics/control-charts.ts';
import { weightsThatStand } from '../statistics/false-discovery.ts';
import type { gammaQuantile } from '../statistics/gamma-distribution.ts';
import { meanTimeBetween } from '../statistics/time-to-failure.ts';
import { CHANCE_SHARE } from './compare-groups.ts';
import type { WorkingClock } from './print-hours.ts';

/** When a rate changed, in times (ms since 1970) and as after over before, each with 95 % limits. */
export interface DatedChange {
  readonly weight: number;
  readonly atMs: number;
  readonly fromMs: number;
  readonly toMs: number;
  readonly ratio: number;
  readonly ratioLow: number;
  readonly ratioHigh: number;
}

/** A weight that chance alone reaches in at most one shop of twenty. */
export const CLEAR_WEIGHT = 20;

/** Less than this stands among no others, however many were looked at. */
export const LEAST_WEIGHT_THAT_STANDS = 1 / CHANCE_SHARE;

/**
 * When the rate of these cases changed, by the hours printed; null where nothing can be said, and where the weight is sure to be less
 * than the least that is asked for.
 */
export function whenChanged(
  times: readonly number[],
  clock: WorkingClock,
  leastWeight = 0,
): DatedChange | null {
  const change = rateChange(
    times.map((ms) => Math.min(clock.totalHours, clock.hoursAt(ms))),
    clock.totalHours,
    leastWeight,
  );
  if (!change) return null;
  const { weight, ratio, ratioLow, ratioHigh } = change;
  return {
    weight,
    atMs: clock.msAt(change.at),
    fromMs: clock.msAt(change.low),
    toMs: clock.msAt(change.high),
    ratio,
    ratioLow,
    ratioHigh,
  };
}

/** Which of many changes are taken as real, having looked at all of them; null for one that weighs too little to stand at all. */
export function changesThatStand<T extends { readonly change: DatedChange | null }>(
  all: readonly T[],
): readonly (T & { readonly change: DatedChange })[] {
  const stands = weightsThatStand(
    all.map(({ change }) => change?.weight ?? 0),
    CHANCE_SHARE,
  );
  return all.flatMap((one, index) => {
    const { change } = one;
    return stands[index] && change ? [{ ...one, change }] : [];
  });
}

/** Print hours from one case to the next. */
export interface Spacing {
  readonly meanHours: number;
  readonly lowHours: number;
  readonly highHours: number;
  readonly hoursSinceLast: number;
  /** Longer without a case than chance allows at the mean rate of before (beyond the upper limit of the t-chart). */
  readonly isUnusuallyQuiet: boolean;
}

/** How far apart cases lie; null for fewer than two. */
export function spacingOf(
  times: readonly number[],
  clock: WorkingClock,
  quantile?: typeof gammaQuantile,
): Spacing | null {
  const hours = times.map((ms) => clock.hoursAt(ms)).sort((a, b) => a - b);
  const last = hours.at(-1);
  if (hours.length < 2 || last === undefined || !(clock.totalHours > 0)) return null;
  const { mean, low, high } = meanTimeBetween(
    { failures: hours.length, hours: clock.totalHours },
    0.95,
    quantile,
  );
  const hoursSinceLast = clock.totalHours - last;
  const isMeasurable = last > 0;
  return {
    meanHours: mean ?? clock.totalHours,
    lowHours: low,
    highHours: high,
    hoursSinceLast,
    isUnusuallyQuiet: isMeasurable && hoursSinceLast > timeBetweenLimits(last / hours.length).high,
  };
}
