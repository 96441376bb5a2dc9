import { chancesIfAlike, type CountedRate } from './rate-comparison.ts';
import { poissonProbability } from './poisson.ts';

/** The chance of seeing a change that is there, at which one speaks of "can be told". */
const ENOUGH_POWER = 0.8;

/**
 * Chance that `exposure` (above 0) from now on will show a rate that became `ratio` times the one before: that the exact 95 %
 * limits of after over before leave 1 out on the side of the change. `before` stays as it was counted, and is taken as true.
 */
export function chanceToTell(before: CountedRate, ratio: number, exposure: number): number {
  const expected = (before.count / before.exposure) * ratio * exposure;
  const most = Math.ceil(expected + 8 * Math.sqrt(expected + 1) + 8);
  let sum = 0;
  if (ratio < 1) {
    for (let count = 0; count <= most && tells(before, { count, exposure }, ratio); count++)
      sum += poissonProbability(count, expected);
    return sum;
  }
  for (let count = most; count >= 0 && tells(before, { count, exposure }, ratio); count--)
    sum += poissonProbability(count, expected);
  return sum;
}

/**
 * The least exposure after the change at which it can be told in 8 of 10 shops, to about 2 %; null where even a hundred times
 * the exposure before would not do: too little was counted before.
 */
export function exposureToTell(before: CountedRate, ratio: number): number | null {
  if (before.count === 0 || ratio === 1) return null;
  const longest = 100 * before.exposure;
  for (let exposure = before.exposure / 50; exposure <= longest; exposure *= 1.02)
    if (chanceToTell(before, ratio, exposure) >= ENOUGH_POWER) return exposure;
  return null;
}

/** Whether these counts would show the change. */
function tells(before: CountedRate, after: CountedRate, ratio: number): boolean {
  const { chanceOfAtLeast, chanceTwoSided } = chancesIfAlike(after, before);
  return chanceTwoSided <= 0.05 && chanceOfAtLeast > 0.5 === ratio < 1;
}
