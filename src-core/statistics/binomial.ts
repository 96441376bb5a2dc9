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
  let sum = 0;
  for (let k = count; k <= trials; k++)
    sum += Math.exp(logChoose(trials, k) + k * Math.log(share) + (trials - k) * Math.log1p(-share));
  return Math.min(1, sum);
}
