import { propagate, NO_HISTORY, type InferenceOptions } from './calibrated-network.ts';
import { requireRemoval, type CaseHistory, type Removal } from '../network/case-history.ts';
import { repairOracle } from './repair-oracle.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';

export type CureChance =
  | { readonly kind: 'ok'; readonly exact: true; readonly probability: number }
  /** Too wide for exact work: nothing better than these bounds is claimed. */
  | { readonly kind: 'ok'; readonly exact: false; readonly lower: number; readonly upper: number }
  | { readonly kind: 'impossible-evidence' };

/**
 * Probability that the complaint would be gone (every observation of it at level 0) had the removal been done,
 * with all other chance events as they were: a counterfactual in the twin network (Balke & Pearl, AAAI-12
 * (1994); Pearl, Causality, 2nd ed. (2009), section 7.1.4). It is not the posterior of the removed cause: another
 * cause, or the leak, may hold the complaint up as well.
 *
 * Each cause of `removal` goes with its own probability, one draw a cause shared by all its links. Earlier tries
 * come in `options.history`; this removal acts on what they left, and a complaint that an earlier try may already
 * have ended ("better") counts as gone.
 *
 * Requires: `complaint` is not empty, and each of its observations is in evidence above level 0.
 */
export function repairProbability(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  complaint: readonly number[],
  removal: readonly Removal[],
  options: InferenceOptions = {},
): CureChance {
  const [only] = chancesToCure(model, priors, evidence, complaint, [removal], options);
  return only ?? { kind: 'impossible-evidence' };
}

/** `repairProbability` of many removals at the price of one network and a partial run each. */
export function chancesToCure(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  complaint: readonly number[],
  removals: readonly (readonly Removal[])[],
  options: InferenceOptions = {},
): readonly CureChance[] {
  removals.forEach((removal) => requireRemoval(model, removal));
  const history = historyOf(complaint, options.history);
  const network = propagate(model, priors, evidence, { ...options, history });
  if (network?.logEvidence === -Infinity) return removals.map(() => ({ kind: 'impossible-evidence' }));
  const oracle = network && repairOracle(network, priors, evidence, options);
  if (!oracle) return removals.map(() => ({ kind: 'ok', exact: false, lower: 0, upper: 1 }));
  return removals.map((removal) => {
    const probability = Math.min(1, oracle.alreadyGone + oracle.cure(removal));
    return { kind: 'ok', exact: true, probability };
  });
}

/** The history with this complaint; throws when the complaint names nothing. */
export function historyOf(complaint: readonly number[], history: CaseHistory = NO_HISTORY): CaseHistory {
  if (complaint.length === 0) throw new RangeError('complaint must name at least one observation, got none');
  return { ...history, complaint };
}
