import { logChoose } from './log-factorial.ts';

/**
 * Chance of at least `count` hits in `trials` (both 0, 1, 2, …) when each hits with chance `share` (0 to 1): the exact
 * upper tail, summed in logarithms so that small chances keep their precision. Throws RangeError for anything else.
 */
export function binomialAtLeast(count: number, trials: number, share: number): number {
  if (!(Number.isInteger(trials) && trials >= 0 && Number.isInteger(count) && count >= 0))
    throw new RangeError(`counts are whole numbers from 0, not ${count} of ${trials}`);
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a share lies between 0 and 1, not ${share}`);
  if (count === 0) return 1;
  if (count > trials || share === 0) return 0;
  if (share === 1) return 1;
  const [logShare, logRest] = [Math.log(share), Math.log1p(-share)];
  const mean = trials * share;
  let sum = 0;
  for (let k = count; k <= trials; k++) {
    const term = Math.exp(logChoose(trials, k) + k * logShare + (trials - k) * logRest);
    sum += term;
    // Past the mean terms only fall: those still to come are lost in the rounding of the sum.
    if (k > mean && term < sum * LOST_IN_ROUNDING) break;
  }
  return Math.min(1, sum);
}

/** A term of a sum below this share of it changes no digit of it, nor do smaller ones after it. */
export const LOST_IN_ROUNDING = 1e-20;
