import type { Gamma } from './gamma-distribution.ts';
import { logFactorial } from './log-factorial.ts';
import { logGamma } from './log-gamma.ts';
import type { CountedRate } from './rate-comparison.ts';

/** How rates differ from one unit to the next, and how well that explains the counts. */
export interface RateSpread extends Gamma {
  /** With all constants (nats). */
  readonly logLikelihood: number;
}

/** Beyond this shape the units' rates differ by less than a percent: they count as alike. */
const ALIKE_SHAPE = 1e4;

/**
 * Empirical Bayes: the gamma distribution of rates that makes the counts most likely, each count being negative binomial
 * (Gaver and O'Muircheartaigh, Technometrics 29, 1987, 1-15). Shape infinite in effect (1e4) where the counts differ no more
 * than chance lets them. Needs at least one unit with exposure and one case, else null.
 */
export function fitRateSpread(units: readonly CountedRate[]): RateSpread | null {
  const counted = units.filter(({ exposure }) => exposure > 0);
  const cases = counted.reduce((sum, one) => sum + one.count, 0);
  if (cases === 0) return null;
  const likelihood = likelihoodOver(counted);
  // At the likeliest rate the likelihood is flat: for searching, a rate to eight digits is as good as an exact one.
  let atLast = NaN;
  const profile = (logShape: number) => {
    const shape = Math.exp(logShape);
    // The last shape's rate, in proportion, is where to look for this one's.
    const at = newtonFrom(counted, shape, 1e-8, atLast + logShape);
    if (!Number.isNaN(at)) atLast = at - logShape;
    const rate = Number.isNaN(at) ? rateFor(counted, shape) : Math.exp(at);
    return likelihood({ shape, rate });
  };
  // A coarse search first: the likelihood may rise towards "all alike" again after a hill.
  let best = Math.log(ALIKE_SHAPE);
  let atBest = profile(best);
  for (let at = Math.log(0.01); at < Math.log(ALIKE_SHAPE); at += 0.25) {
    const here = profile(at);
    if (here > atBest + 1e-9) [best, atBest] = [at, here];
  }
  const shape = Math.exp(goldenMaximum(profile, best - 0.5, best + 0.5));
  const rate = rateFor(counted, shape);
  return { shape, rate, logLikelihood: logLikelihoodOf(counted, { shape, rate }) };
}

/** What is known of a unit's rate with its own counts: a long record keeps its own, a short one leans on the others. */
export function updatedRate(prior: Gamma, own: CountedRate): Gamma {
  return { shape: prior.shape + own.count, rate: prior.rate + own.exposure };
}

/** ln of the chance of counts, each Poisson with a rate drawn from the gamma distribution. */
export function logLikelihoodOf(units: readonly CountedRate[], { shape, rate }: Gamma): number {
  const ofShape = logGamma(shape);
  return units.reduce(
    (sum, { count, exposure }) =>
      sum +
      logGamma(shape + count) -
      ofShape -
      logFactorial(count) +
      shape * Math.log(rate / (rate + exposure)) +
      (count === 0 ? 0 : count * Math.log(exposure / (rate + exposure))),
    0,
  );
}

/**
 * {@link logLikelihoodOf} but for what is the same whatever the spread, made to be asked often: Γ(a + n) / Γ(a) is the product of
 * a + i for i below n, so that units with more than i cases are counted once for all of them.
 */
function likelihoodOver(units: readonly CountedRate[]): (spread: Gamma) => number {
  const counts = units.map(({ count }) => count).sort((a, b) => a - b);
  const largest = counts.at(-1) ?? 0;
  // Of long records the gamma function itself is the shorter way.
  const isShort = largest < 8 * units.length && counts.every((count) => Number.isInteger(count));
  const unitsAbove = isShort
    ? Float64Array.from({ length: largest }, (_, i) => counts.filter((count) => count > i).length)
    : null;
  return ({ shape, rate }) => {
    let sum = 0;
    if (unitsAbove)
      for (let i = 0; i < unitsAbove.length; i++) sum += (unitsAbove[i] ?? 0) * Math.log(shape + i);
    else {
      const ofShape = logGamma(shape);
      for (const count of counts) sum += logGamma(shape + count) - ofShape;
    }
    sum += units.length * shape * Math.log(rate);
    for (const { count, exposure } of units) sum -= (shape + count) * Math.log(rate + exposure);
    return sum;
  };
}

/** Chance that no case comes in so much more exposure. */
export function chanceOfNone({ shape, rate }: Gamma, exposure: number): number {
  return (rate / (rate + exposure)) ** shape;
}

/** The likeliest rate parameter for a shape: where the mean of the updated rates is the mean of the prior. */
function rateFor(units: readonly CountedRate[], shape: number): number {
  const excess = (logRate: number) => {
    const rate = Math.exp(logRate);
    const mean = shape / rate;
    let sum = 0;
    for (const { count, exposure } of units) sum = sum + mean - (shape + count) / (rate + exposure);
    return sum;
  };
  let [low, high] = bracketOf(excess, newtonFrom(units, shape, 1e-12));
  // Until halving changes nothing any more.
  for (let step = 0; step < 100; step++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

/** Where `excess` crosses zero, as ln of the rate and as near as Newton's steps from the mean rate, or from `from`, come; NaN where they lead astray. */
function newtonFrom(units: readonly CountedRate[], shape: number, nearness: number, from = NaN): number {
  let at = from;
  if (Number.isNaN(at)) {
    let count = 0;
    let exposure = 0;
    for (const one of units) {
      count += one.count;
      exposure += one.exposure;
    }
    at = Math.log((shape * exposure) / count);
  }
  for (let step = 0; step < 20; step++) {
    const rate = Math.exp(at);
    let excess = 0;
    let slope = 0;
    for (const one of units) {
      const whole = rate + one.exposure;
      const mean = (shape + one.count) / whole;
      excess += shape / rate - mean;
      slope += (mean * rate) / whole - shape / rate;
    }
    const by = excess / slope;
    at -= by;
    if (!(Math.abs(by) > nearness)) return at;
  }
  return NaN;
}

/** A short stretch around `near` over which a falling function crosses zero; the whole range where there is none. */
function bracketOf(falling: (at: number) => number, near: number): [number, number] {
  const [low, high] = [near - 1e-11, near + 1e-11];
  return falling(low) > 0 && falling(high) <= 0 ? [low, high] : [-60, 60];
}

/** Place of the maximum of a function with one hill between two places, to about 1e-8. */
function goldenMaximum(of: (at: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [left, right] = [high - golden * (high - low), low + golden * (high - low)];
  let [atLeft, atRight] = [of(left), of(right)];
  while (high - low > 1e-9) {
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - golden * (high - low);
      atLeft = of(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + golden * (high - low);
      atRight = of(right);
    }
  }
  return (low + high) / 2;
}
