import { logFactorial } from './log-factorial.ts';

/**
 * Chance of exactly `count` events (0, 1, 2, …) when `mean` (>= 0) are expected.
 * Worked in logarithms so that large counts neither overflow nor vanish.
 */
export function poissonProbability(count: number, mean: number): number {
  requireCount(count);
  requireMean(mean);
  if (mean === 0) return count === 0 ? 1 : 0;
  return Math.exp(count * Math.log(mean) - mean - logFactorial(count));
}

/** Chance of at most `count` events when `mean` are expected. */
export function poissonAtMost(count: number, mean: number): number {
  let sum = 0;
  for (let k = 0; k <= count; k++) sum += poissonProbability(k, mean);
  return Math.min(1, sum);
}

/** Chance of at least `count` events when `mean` are expected; small chances keep their precision. */
export function poissonAtLeast(count: number, mean: number): number {
  requireCount(count);
  if (count === 0) return 1;
  if (count <= mean) return Math.max(0, 1 - poissonAtMost(count - 1, mean));
  let sum = 0;
  for (let k = count; ; k++) {
    const term = poissonProbability(k, mean);
    sum += term;
    // Beyond the mean the terms fall at least geometrically.
    if (term <= sum * 1e-17) return Math.min(1, sum);
  }
}

function requireCount(count: number): void {
  if (!(Number.isInteger(count) && count >= 0))
    throw new RangeError(`count is a whole number from 0, not ${count}`);
}

function requireMean(mean: number): void {
  if (!(mean >= 0 && Number.isFinite(mean)))
    throw new RangeError(`mean is a finite number from 0, not ${mean}`);
}
