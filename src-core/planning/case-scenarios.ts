import {
  propagate,
  remainingProbability,
  type CalibratedNetwork,
  type InferenceOptions,
} from '../inference/queries/calibrated-network.ts';
import { historyOf } from '../inference/queries/repair-probability.ts';
import { repairOracle, type RepairOracle } from '../inference/queries/repair-oracle.ts';
import type { GraphEvidence, GraphModel } from '../inference/network/graph-model.ts';
import type { Scenario } from './repair-problem.ts';

export type CaseScenarios =
  | {
      readonly kind: 'ok';
      readonly network: CalibratedNetwork;
      readonly oracle: RepairOracle;
      /** Ways in which the complaint is held up now, most probable first. */
      readonly scenarios: readonly Scenario[];
      /** Probability of the rest: leaks, and sets of causes too rare or too large to list. */
      readonly unresolved: number;
    }
  | { readonly kind: 'impossible-evidence' | 'too-wide' | 'complaint-gone' };

/** Scenarios rarer than this are left to the unresolved rest. */
const LEAST_PROBABILITY = 5e-4;
const MOST_SCENARIOS = 30;
/** Causes looked at in pairs and in triples, most probable first. */
const CAUSES_IN_PAIRS = 12;
const CAUSES_IN_TRIPLES = 6;

/**
 * The sets of causes that hold the complaint up, with exact probabilities: the complaint is gone when all causes of
 * the set are gone, and still there when any is left. This is not the set of causes present: one may be present
 * and raise nothing. "Gone if R is removed" is the event that the set is inside R, which the twin network gives
 * exactly for any R; the probability of a set follows by inclusion and exclusion over its subsets.
 *
 * `known` is the network of exactly this case, complaint and history included, if it is at hand.
 */
export function caseScenarios(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  complaint: readonly number[],
  options: InferenceOptions = {},
  known?: CalibratedNetwork,
): CaseScenarios {
  const history = historyOf(complaint, options.history);
  const network = known ?? propagate(model, priors, evidence, { ...options, history });
  if (!network) return { kind: 'too-wide' };
  if (network.logEvidence === -Infinity) return { kind: 'impossible-evidence' };
  const oracle = repairOracle(network, priors, evidence, options);
  if (!oracle) return { kind: 'too-wide' };
  const there = 1 - oracle.alreadyGone;
  if (there < 1e-12) return { kind: 'complaint-gone' };

  const inside = new Map<string, number>();
  const goneWithout = (causes: readonly number[]): number => {
    const key = causes.join();
    const known = inside.get(key);
    if (known !== undefined) return known;
    const [first = -1, second = -1] = causes;
    const value =
      causes.length === 2
        ? oracle.without(first).together(second)
        : oracle.cure(causes.map((cause) => ({ cause, probability: 1 })));
    inside.set(key, value / there);
    return value / there;
  };
  const remaining = priors.map((_, cause) => remainingProbability(network, cause));
  // What cannot reach the complaint holds nothing up.
  const reaches = causesThatReach(model, complaint);
  const ranked = priors
    .flatMap((_, cause) => (reaches.has(cause) ? [cause] : []))
    .sort((a, b) => (remaining[b] ?? 0) - (remaining[a] ?? 0));
  const candidates: number[][] = ranked
    .filter((cause) => (remaining[cause] ?? 0) > LEAST_PROBABILITY)
    .map((c) => [c]);
  // No set is more probable than its least probable cause.
  const setsOf = (size: number, most: number) =>
    subsets(
      ranked.slice(0, most).filter((cause) => (remaining[cause] ?? 0) > LEAST_PROBABILITY),
      size,
    );
  const triples = setsOf(3, CAUSES_IN_TRIPLES);
  candidates.push(...setsOf(2, CAUSES_IN_PAIRS), ...triples);
  // These first: pairs leave the networks with a cause removed.
  triples.forEach(goneWithout);
  const scenarios = candidates
    .map((causes) => ({ causes, probability: heldByExactly(causes, goneWithout) }))
    .filter(({ probability }) => probability > LEAST_PROBABILITY)
    .sort((a, b) => b.probability - a.probability)
    .slice(0, MOST_SCENARIOS);
  const covered = scenarios.reduce((sum, scenario) => sum + scenario.probability, 0);
  return { kind: 'ok', network, oracle, scenarios, unresolved: Math.max(0, 1 - covered) };
}

function causesThatReach(model: GraphModel, complaint: readonly number[]): ReadonlySet<number> {
  const reached = new Set<number>();
  for (const index of complaint) {
    for (const { from } of model.observations[index]?.links ?? []) {
      if (from.kind === 'cause') reached.add(from.index);
      else for (const { cause } of model.mechanisms[from.index]?.links ?? []) reached.add(cause);
    }
  }
  return reached;
}

/** Probability that exactly this set holds the complaint up: inclusion and exclusion over its subsets. */
function heldByExactly(
  causes: readonly number[],
  goneWithout: (causes: readonly number[]) => number,
): number {
  let sum = 0;
  for (let mask = 1; mask < 2 ** causes.length; mask++) {
    const part = causes.filter((_, k) => (mask >> k) & 1);
    sum += ((causes.length - part.length) % 2 === 0 ? 1 : -1) * goneWithout(part);
  }
  return Math.max(0, sum);
}

function subsets(items: readonly number[], size: number): number[][] {
  if (size === 0) return [[]];
  return items.flatMap((item, k) => subsets(items.slice(k + 1), size - 1).map((rest) => [item, ...rest]));
}
