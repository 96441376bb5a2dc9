import { betaQuantile } from './beta-distribution.ts';
import { binomialAtLeast } from './binomial.ts';
import { logChoose } from './log-factorial.ts';

/** Cases that were counted over so much exposure (print hours, or whatever both sides are counted in; above 0). */
export interface CountedRate {
  readonly count: number;
  readonly exposure: number;
}

export interface RateComparison {
  /** First rate over second; Infinity where only the first has cases, NaN where neither has. */
  readonly ratio: number;
  /** Exact limits of the ratio at the confidence asked for; `high` is Infinity where the second has no cases. */
  readonly low: number;
  readonly high: number;
  /** Chance of a first count so high or higher, were both rates alike. */
  readonly chanceOfAtLeast: number;
  /** Twice the smaller of both tails, at most 1: below 0.05 exactly where the 95 % limits leave 1 out. */
  readonly chanceTwoSided: number;
}

/**
 * Two Poisson rates compared exactly. Given the cases of both together, those of the first are a binomial with the share of
 * its exposure (Przyborowski and Wilenski, Biometrika 31, 1940, 313-323); Clopper and Pearson's limits of that share
 * (Biometrika 26, 1934, 404-413) carry over to the ratio. Test and limits follow one convention: both tails count alike.
 */
export function compareRates(first: CountedRate, second: CountedRate, confidence = 0.95): RateComparison {
  const { chanceOfAtLeast, chanceTwoSided } = chancesIfAlike(first, second);
  const total = first.count + second.count;
  const limits = shareLimits(first.count, total, confidence);
  const toRatio = (one: number) => (one / (1 - one)) * (second.exposure / first.exposure);
  return {
    ratio: first.count / first.exposure / (second.count / second.exposure),
    low: toRatio(limits.low),
    high: limits.high === 1 ? Infinity : toRatio(limits.high),
    chanceOfAtLeast,
    chanceTwoSided,
  };
}

/** The chances of `compareRates` without its limits, which take longer. */
export function chancesIfAlike(
  first: CountedRate,
  second: CountedRate,
): Pick<RateComparison, 'chanceOfAtLeast' | 'chanceTwoSided'> {
  for (const { exposure } of [first, second])
    if (!(exposure > 0 && Number.isFinite(exposure)))
      throw new RangeError(`rates are compared over exposures above 0, not ${exposure}`);
  const total = first.count + second.count;
  const share = first.exposure / (first.exposure + second.exposure);
  const atLeast = binomialAtLeast(first.count, total, share);
  const atMost = binomialAtLeast(second.count, total, 1 - share);
  return { chanceOfAtLeast: atLeast, chanceTwoSided: Math.min(1, 2 * Math.min(atLeast, atMost)) };
}

/** Clopper and Pearson's exact limits of a share after `count` of `trials`. */
export function shareLimits(
  count: number,
  trials: number,
  confidence = 0.95,
): { readonly low: number; readonly high: number } {
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(`confidence lies between 0 and 1, not ${confidence}`);
  const tail = (1 - confidence) / 2;
  return {
    low: count === 0 ? 0 : betaQuantile({ a: count, b: trials - count + 1 }, tail),
    high: count === trials ? 1 : betaQuantile({ a: count + 1, b: trials - count }, 1 - tail),
  };
}

/**
 * The other usual two-sided chance: that of all outcomes no more likely than the one seen. It does not agree with the limits
 * of `compareRates`, and is here to be held against what others print.
 */
export function chanceOfNoLikelier(first: CountedRate, second: CountedRate): number {
  const total = first.count + second.count;
  const share = first.exposure / (first.exposure + second.exposure);
  const chance = (k: number) =>
    Math.exp(logChoose(total, k) + k * Math.log(share) + (total - k) * Math.log1p(-share));
  const seen = chance(first.count);
  let sum = 0;
  for (let k = 0; k <= total; k++) if (chance(k) <= seen * (1 + 1e-7)) sum += chance(k);
  return Math.min(1, sum);
}
