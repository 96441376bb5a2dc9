import { believe, NO_HISTORY, type Belief, type InferenceOptions } from './belief.ts';
import { historyBranches, requireRemoval, survival, type CaseHistory, type Removal } from './case-history.ts';
import type { Circuit } from './circuit.ts';
import { compileCircuit, DEFAULT_LIMITS } from './compile-circuit.ts';
import { encode } from './encode.ts';
import type { GraphEvidence, GraphModel } from './graph-model.ts';
import type { MaxNetwork } from './max-network.ts';
import { differentiate, evaluate, logScale } from './run-circuit.ts';
import { WhatIf } from './what-if.ts';

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
export function chanceToCure(
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

/** `chanceToCure` of many removals at the price of one network and a partial run each. */
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
  const belief = believe(model, priors, evidence, { ...options, history });
  if (!belief) return removals.map(() => ({ kind: 'ok', exact: false, lower: 0, upper: 1 }));
  if (belief.logEvidence === -Infinity) return removals.map(() => ({ kind: 'impossible-evidence' }));
  const networks = cureNetworks(belief, priors, evidence, options);
  if (!networks) return removals.map(() => ({ kind: 'ok', exact: false, lower: 0, upper: 1 }));
  const runs = networks.map((each) => ({ ...each, whatIf: new WhatIf(each.circuit) }));
  return removals.map((removal) => {
    let probability = alreadyGone(belief);
    for (const { network, whatIf, scale } of runs) {
      for (const { cause, probability: share } of removal) {
        setRemoval(network, history, priors, cause, share, whatIf.change(cause));
      }
      probability += scale * whatIf.value();
    }
    return { kind: 'ok', exact: true, probability: Math.min(1, probability) };
  });
}

/** Networks of the event "the complaint is gone after the next removal and not before", with nothing removed yet. */
export interface CureNetwork {
  readonly network: MaxNetwork;
  readonly circuit: Circuit;
  /** Multiplies stored values to give probabilities given the evidence. */
  readonly scale: number;
}

/** Null when too wide. The circuits are evaluated and differentiated. */
export function cureNetworks(
  belief: Belief,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  options: InferenceOptions,
): readonly CureNetwork[] | null {
  const { history } = belief;
  const next: CaseHistory = { ...history, tries: [...history.tries, { removal: [], outcome: 'cured' }] };
  const networks: CureNetwork[] = [];
  for (const branch of historyBranches(next)) {
    // The others are in the belief already, as complaints that went away earlier.
    if (branch.goneAfter !== next.tries.length) continue;
    const network = encode(belief.model, priors, evidence, branch.view);
    const circuit = compileCircuit(network, options.limits ?? DEFAULT_LIMITS);
    if (!circuit) return null;
    evaluate(circuit);
    differentiate(circuit);
    const scale = branch.likelihood * Math.exp(logScale(circuit) - belief.logEvidence);
    networks.push({ network, circuit, scale });
  }
  return networks;
}

/** Probability that the complaint is gone already, which only a "better" leaves open. */
export function alreadyGone(belief: Belief): number {
  return belief.branches.reduce((sum, branch) => sum + (branch.goneAfter === null ? 0 : branch.share), 0);
}

/** Writes the weights of a cause that the next removal takes away with probability `share`. */
export function setRemoval(
  network: MaxNetwork,
  history: CaseHistory,
  priors: readonly number[],
  cause: number,
  share: number,
  weights: Float64Array,
): void {
  const factors = network.sources[cause]?.factors;
  const enduring = weights.length - 1;
  const alive = (priors[cause] ?? 0) * survival(history.tries, cause, 0, history.tries.length);
  weights[enduring] = alive * (1 - share) * (factors?.[enduring] ?? 0);
  weights[enduring - 1] = alive * share * (factors?.[enduring - 1] ?? 0);
}

export function historyOf(complaint: readonly number[], history: CaseHistory = NO_HISTORY): CaseHistory {
  if (complaint.length === 0) throw new RangeError('complaint must name at least one observation, got none');
  return { ...history, complaint };
}
