import {
  historyBranches,
  requireHistory,
  type CaseHistory,
  type HistoryBranch,
} from '../network/case-history.ts';
import type { Circuit } from '../circuit/circuit.ts';
import { compileCircuit, DEFAULT_LIMITS, type WidthLimits } from '../circuit/compile-circuit.ts';
import { encode } from '../network/encode.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';
import type { MaxNetwork } from '../network/max-network.ts';
import { differentiate, evaluate, stateProbability } from '../circuit/run-circuit.ts';
import { requireUsable } from '../network/validate.ts';

export interface InferenceOptions {
  /** Remedies tried so far and what they did. */
  readonly history?: CaseHistory;
  /** Past these the answer is a pair of guaranteed bounds instead. */
  readonly limits?: WidthLimits;
}

/** Everything computed once for a case, from which all questions are answered. */
export interface CalibratedNetwork {
  readonly model: GraphModel;
  readonly history: CaseHistory;
  readonly branches: readonly CalibratedBranch[];
  /** Natural log of the probability of the evidence and history. */
  readonly logEvidence: number;
}

export interface CalibratedBranch extends HistoryBranch {
  readonly network: MaxNetwork;
  readonly circuit: Circuit;
  /** Source of each relevant mechanism. */
  readonly mechanismSource: ReadonlyMap<number, number>;
  /** Log of the probability of the evidence in this branch, its likelihood included. */
  readonly log: number;
  /** Share of this branch among all. */
  readonly share: number;
}

export const NO_HISTORY: CaseHistory = { complaint: [], tries: [] };

/** Runs forward and backward. Returns null when the network is too wide for exact work. */
export function propagate(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  options: InferenceOptions = {},
): CalibratedNetwork | null {
  const history = options.history ?? NO_HISTORY;
  requireUsable(model, priors, evidence);
  requireHistory(model, evidence, history);
  const found: Omit<CalibratedBranch, 'share'>[] = [];
  for (const branch of historyBranches(history)) {
    const network = encode(model, priors, evidence, branch.view);
    const circuit = compileCircuit(network, options.limits ?? DEFAULT_LIMITS);
    if (!circuit) return null;
    const log = evaluate(circuit) + Math.log(branch.likelihood);
    if (log > -Infinity) differentiate(circuit);
    found.push({ ...branch, network, circuit, mechanismSource: mechanismSources(network), log });
  }
  const largest = Math.max(...found.map((branch) => branch.log));
  const total = found.reduce((sum, branch) => sum + Math.exp(branch.log - largest), 0);
  const logEvidence = largest === -Infinity ? -Infinity : largest + Math.log(total);
  const branches = found
    .filter((branch) => branch.log > -Infinity)
    .map((branch) => ({ ...branch, share: Math.exp(branch.log - largest) / total }));
  return { model, history, branches, logEvidence };
}

/** Probability that a cause was present when the case began. */
export function causeProbability(network: CalibratedNetwork, cause: number, isPresent = true): number {
  return mixture(network, ({ circuit }) => {
    if (!isPresent) return stateProbability(circuit, cause, 0);
    return aliveProbability(circuit, cause, 0);
  });
}

/** Probability that a cause is still present after all tries. */
export function remainingProbability(network: CalibratedNetwork, cause: number): number {
  return mixture(network, ({ circuit, cuts }) => stateProbability(circuit, cause, cuts.length));
}

/** Probability that a source is alive in world `world`. */
export function aliveProbability(circuit: Circuit, source: number, world: number): number {
  let sum = 0;
  const states = circuit.weights[source]?.length ?? 0;
  for (let s = world + 1; s < states; s++) sum += stateProbability(circuit, source, s);
  return sum;
}

/** Average over the branches of the history. */
export function mixture(network: CalibratedNetwork, value: (branch: CalibratedBranch) => number): number {
  let sum = 0;
  for (const branch of network.branches) sum += branch.share * value(branch);
  return sum;
}

function mechanismSources(network: MaxNetwork): ReadonlyMap<number, number> {
  const map = new Map<number, number>();
  network.sources.forEach((source, s) => source.kind === 'mechanism' && map.set(source.index, s));
  return map;
}
