import { bisect } from './bisect.ts';
import { logGamma } from './log-gamma.ts';

/** A gamma distribution: `shape` > 0, `rate` > 0 (per unit of what is distributed); its mean is shape / rate. */
export interface Gamma {
  readonly shape: number;
  readonly rate: number;
}

/**
 * Chance (0–1) that a gamma variable lies at or below `x` (>= 0): the regularised incomplete gamma function, by its series
 * or its continued fraction (Abramowitz and Stegun 6.5.29 and 6.5.31).
 */
export function gammaAtMost({ shape, rate }: Gamma, x: number): number {
  if (!(shape > 0 && rate > 0)) throw new RangeError(`shape and rate lie above 0, not ${shape} and ${rate}`);
  if (!(x >= 0)) throw new RangeError(`a gamma variable is never below 0, and not ${x}`);
  const at = x * rate;
  if (at === 0) return 0;
  if (at === Infinity) return 1;
  const front = Math.exp(shape * Math.log(at) - at - logGamma(shape));
  return at < shape + 1 ? front * series(shape, at) : 1 - front * continuedFraction(shape, at);
}

/** The value below which a gamma variable lies with chance `probability` (between 0 and 1). */
export function gammaQuantile(gamma: Gamma, probability: number): number {
  if (!(probability > 0 && probability < 1))
    throw new RangeError(`a quantile needs a chance between 0 and 1, not ${probability}`);
  const mean = gamma.shape / gamma.rate;
  let high = mean + 1 / gamma.rate;
  while (gammaAtMost(gamma, high) < probability) high *= 2;
  return bisect((x) => gammaAtMost(gamma, x) >= probability, 0, high);
}

/** {@link gammaQuantile} that remembers what it was asked: many rows share a few counts. */
export function rememberedQuantiles(): typeof gammaQuantile {
  const known = new Map<string, number>();
  return (gamma, probability) => {
    const key = `${gamma.shape} ${gamma.rate} ${probability}`;
    const value = known.get(key) ?? gammaQuantile(gamma, probability);
    known.set(key, value);
    return value;
  };
}

function series(shape: number, at: number): number {
  let term = 1 / shape;
  let sum = term;
  for (let n = 1; term > sum * 1e-17; n++) {
    term *= at / (shape + n);
    sum += term;
  }
  return sum;
}

/** Lentz's method. */
function continuedFraction(shape: number, at: number): number {
  const tiny = 1e-300;
  let b = at + 1 - shape;
  let c = 1 / tiny;
  let d = 1 / b;
  let value = d;
  for (let n = 1; n < 10_000; n++) {
    const a = -n * (n - shape);
    b += 2;
    d = 1 / (a * d + b || tiny);
    c = b + a / c || tiny;
    value *= c * d;
    if (Math.abs(c * d - 1) < 3e-16) break;
  }
  return value;
}
