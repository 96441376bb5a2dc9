import type { Conditions } from '../knowledge/conditions.ts';
import { CAUSE_NOT_IN_GUIDE } from '../knowledge/compile.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { gammaQuantile, type Gamma } from '../statistics/gamma-distribution.ts';

/** A closed case whose cause was confirmed. */
export interface ConfirmedCase {
  readonly printerId: string | null;
  /** Causes of the guide; what was named by hand is none of them. */
  readonly causes: readonly string[];
  /** What was known when it was opened. */
  readonly conditions: Conditions;
}

/** What a shop's own cases say of how often it meets one cause, beside the guide. */
export interface CauseExperience {
  readonly cause: string;
  readonly confirmed: number;
  /** Cases of the shop that the guide would have expected to come from it, under the circumstances of each. */
  readonly expected: number;
  /** Odds of the cause in this shop over those of the guide, with 5 and 95 % points. */
  readonly timesOdds: number;
  readonly low: number;
  readonly high: number;
}

/**
 * How much the guide weighs against the shop's own cases, as cases expected: with two expected and none seen the odds
 * are halved, with two expected and six seen they are doubled. Our own choice; `tests/learning/simulated-shops.test.ts` holds
 * it against simulated shops.
 */
export const GUIDE_WEIGHT_CASES = 2;
/** The same of the shop as a whole against one printer's own cases. */
export const SHOP_WEIGHT_CASES = 4;
/** Newest cases that count: printers, people and filament change. */
export const MOST_CASES = 2000;
/** A change of less than this is left out of a case: it moves nothing that anybody would see. */
const LEAST_CHANGE = 1.05;

/**
 * What the confirmed cases of a shop say of each cause of the guide, most changed first.
 *
 * Model: the number of cases from a cause is Poisson with mean r E, where E is what the guide expects of these very cases (its
 * priors under the circumstances of each, as shares) and r has a gamma prior of mean 1 and shape `GUIDE_WEIGHT_CASES`. The
 * posterior is gamma again, (w + n) / (w + E) on average (gamma-Poisson shrinkage: Gelman et al., Bayesian Data Analysis, 3rd
 * ed. 2013, section 2.6). r multiplies the odds of the cause.
 */
export function ownExperience(
  knowledge: Knowledge,
  cases: readonly ConfirmedCase[],
): readonly CauseExperience[] {
  const { expected, confirmed } = countsOf(knowledge, cases);
  return [...knowledge.causes.keys()]
    .flatMap((cause, index): CauseExperience[] => {
      if (cause === CAUSE_NOT_IN_GUIDE) return [];
      const [n, e] = [confirmed[index] ?? 0, expected[index] ?? 0];
      return [experienceFrom(cause, n, e, { shape: GUIDE_WEIGHT_CASES, rate: GUIDE_WEIGHT_CASES })];
    })
    .sort((a, b) => Math.abs(Math.log(b.timesOdds)) - Math.abs(Math.log(a.timesOdds)));
}

/**
 * The same of one printer: its own cases against what the shop as a whole leads one to expect of it. `cases` are those of
 * the whole shop.
 */
export function printerExperience(
  knowledge: Knowledge,
  cases: readonly ConfirmedCase[],
  printerId: string,
): readonly CauseExperience[] {
  const own = countsOf(
    knowledge,
    cases.filter((one) => one.printerId === printerId),
  );
  return ownExperience(knowledge, cases).map(({ cause, timesOdds }) => {
    const index = knowledge.causeIndex.get(cause) ?? -1;
    const prior = { shape: SHOP_WEIGHT_CASES, rate: SHOP_WEIGHT_CASES / timesOdds };
    return experienceFrom(cause, own.confirmed[index] ?? 0, own.expected[index] ?? 0, prior);
  });
}

/** Factors on the odds that a case is opened with: causes whose odds the shop's own cases move noticeably. */
export function factorsOf(experience: readonly CauseExperience[]): Readonly<Record<string, number>> {
  return Object.fromEntries(
    experience
      .filter(({ timesOdds }) => Math.abs(Math.log(timesOdds)) >= Math.log(LEAST_CHANGE))
      .map(({ cause, timesOdds }) => [cause, Number(timesOdds.toPrecision(3))]),
  );
}

function experienceFrom(cause: string, confirmed: number, expected: number, prior: Gamma): CauseExperience {
  const posterior = { shape: prior.shape + confirmed, rate: prior.rate + expected };
  return {
    cause,
    confirmed,
    expected,
    timesOdds: posterior.shape / posterior.rate,
    low: gammaQuantile(posterior, 0.05),
    high: gammaQuantile(posterior, 0.95),
  };
}

/** Cases from each cause (by index): confirmed, and expected by the guide. A case with two causes counts for both. */
function countsOf(
  knowledge: Knowledge,
  cases: readonly ConfirmedCase[],
): { readonly confirmed: Float64Array; readonly expected: Float64Array } {
  const confirmed = new Float64Array(knowledge.causes.size);
  const expected = new Float64Array(knowledge.causes.size);
  const unknown = knowledge.causeIndex.get(CAUSE_NOT_IN_GUIDE) ?? -1;
  const sharesUnder = new Map<string, readonly number[]>();
  for (const { causes, conditions } of cases) {
    const indices = causes
      .flatMap((id) => knowledge.causeIndex.get(id) ?? [])
      .filter((one) => one !== unknown);
    if (indices.length === 0) continue;
    for (const index of indices) confirmed[index] = (confirmed[index] ?? 0) + 1;
    const key = JSON.stringify(conditions);
    const shares = sharesUnder.get(key) ?? sharesOf(knowledge, conditions, unknown);
    sharesUnder.set(key, shares);
    for (const [index, share] of shares.entries())
      expected[index] = (expected[index] ?? 0) + indices.length * share;
  }
  return { confirmed, expected };
}

/** Of a hundred cases under these circumstances, how many come from each cause of the guide; as shares that sum to 1. */
function sharesOf(knowledge: Knowledge, conditions: Conditions, unknown: number): readonly number[] {
  const priors = knowledge
    .priorsUnder(conditions)
    .priors.map((prior, index) => (index === unknown ? 0 : prior));
  const sum = priors.reduce((total, prior) => total + prior, 0);
  return priors.map((prior) => prior / sum);
}
