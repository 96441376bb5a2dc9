import type { ActionEffect } from '../contract/action-view.ts';
import { compareRates, type CountedRate } from '../statistics/rate-comparison.ts';
import { exposureToTell } from '../statistics/rate-power.ts';

const DAY_MS = 24 * 3_600_000;
/** What takes longer than this to show is as good as never told. */
const LONGEST_DAYS = 730;

/**
 * Whether something helped: the rate after over the rate before, with exact 95 % limits. Where they hold 1 it cannot be told
 * yet, and `tellable` says from how many print hours on an effect of `expectedRatio` would show in 8 of 10 shops, and when
 * that is at the hours printed a day of late (`hoursPerDay`; 0 where nobody knows). It is null where that is
 * more than two years away, or never. Null altogether where one side has no print hours.
 */
export function effectOf(parts: {
  readonly before: CountedRate;
  readonly after: CountedRate;
  readonly expectedRatio: number;
  readonly hoursPerDay: number;
  readonly nowMs: number;
}): ActionEffect | null {
  const { before, after, expectedRatio, hoursPerDay, nowMs } = parts;
  if (!(before.exposure > 0 && after.exposure > 0)) return null;
  const { ratio, low, high } = compareRates(after, before);
  const verdict = high < 1 ? 'helped' : low > 1 ? 'made-worse' : 'not-yet';
  const hours = verdict === 'not-yet' ? exposureToTell(before, expectedRatio) : null;
  const missing = hours === null ? 0 : Math.max(0, hours - after.exposure);
  const days = hoursPerDay > 0 ? missing / hoursPerDay : null;
  return {
    before: { count: before.count, hours: before.exposure },
    after: { count: after.count, hours: after.exposure },
    ratio: Number.isFinite(ratio) ? ratio : null,
    low,
    high: Number.isFinite(high) ? high : null,
    verdict,
    tellable:
      hours === null || (days !== null && days > LONGEST_DAYS)
        ? null
        : {
            hours,
            // Past that point without a verdict: the effect is smaller than hoped, if there is one.
            on:
              missing > 0 && days !== null
                ? new Date(nowMs + days * DAY_MS).toISOString().slice(0, 10)
                : null,
          },
  };
}
