import { bisect } from './bisect.ts';
import { logGamma } from './log-gamma.ts';

/** A beta distribution of a share; both parameters lie above 0. After s of n seen, from a prior (a, b): (a + s, b + n - s). */
export interface Beta {
  readonly a: number;
  readonly b: number;
}

/** ln of the beta function. */
export function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}

/**
 * Chance (0–1) that a beta variable lies at or below `share` (0–1): the regularised incomplete beta function by its
 * continued fraction (Abramowitz and Stegun 26.5.8).
 */
export function betaAtMost({ a, b }: Beta, share: number): number {
  if (!(a > 0 && b > 0)) throw new RangeError(`both parameters lie above 0, not ${a} and ${b}`);
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a share lies between 0 and 1, not ${share}`);
  if (share === 0 || share === 1) return share;
  const front = Math.exp(a * Math.log(share) + b * Math.log1p(-share) - logBeta(a, b));
  return share < (a + 1) / (a + b + 2)
    ? (front * continuedFraction(a, b, share)) / a
    : 1 - (front * continuedFraction(b, a, 1 - share)) / b;
}

/** The share below which a beta variable lies with chance `probability` (between 0 and 1). */
export function betaQuantile(beta: Beta, probability: number): number {
  if (!(probability > 0 && probability < 1))
    throw new RangeError(`a quantile needs a chance between 0 and 1, not ${probability}`);
  return bisect((share) => betaAtMost(beta, share) >= probability, 0, 1);
}

/** Mean and standard deviation of the share. */
export function betaMoments({ a, b }: Beta): { readonly mean: number; readonly sd: number } {
  const mean = a / (a + b);
  return { mean, sd: Math.sqrt((mean * (1 - mean)) / (a + b + 1)) };
}

/** Lentz's method. */
function continuedFraction(a: number, b: number, x: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1) || tiny);
  let value = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d || tiny);
    c = 1 + even / c || tiny;
    value *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d || tiny);
    c = 1 + odd / c || tiny;
    value *= c * d;
    if (Math.abs(c * d - 1) < 3e-16) break;
  }
  return value;
}
