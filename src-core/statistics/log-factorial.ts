import { logGamma } from './log-gamma.ts';

const SMALL: number[] = [0, 0];

/** Natural logarithm of n! for n = 0, 1, 2, …; so that large counts neither overflow nor vanish. */
export function logFactorial(n: number): number {
  if (n >= 1000) return logGamma(n + 1);
  for (let k = SMALL.length; k <= n; k++) SMALL.push((SMALL[k - 1] ?? 0) + Math.log(k));
  return SMALL[n] ?? 0;
}

/** Natural logarithm of the number of ways to choose `chosen` of `all`. */
export function logChoose(all: number, chosen: number): number {
  return logFactorial(all) - logFactorial(chosen) - logFactorial(all - chosen);
}
