import type { CalibratedNetwork, InferenceOptions } from './calibrated-network.ts';
import { causeRemoved, runOf, withRemoval, type CauseRemoved, type CureNetwork } from './cause-removed.ts';
import { historyBranches, survival, type CaseHistory, type Removal } from '../network/case-history.ts';
import { compileCircuit, DEFAULT_LIMITS } from '../circuit/compile-circuit.ts';
import { encode } from '../network/encode.ts';
import type { GraphEvidence } from '../network/graph-model.ts';
import { differentiate, evaluate, logScale } from '../circuit/run-circuit.ts';
import { WhatIf } from '../circuit/what-if.ts';

/** Answers "would the complaint be gone?" for any removal in one case. */
export interface RepairOracle {
  /** Probability that the complaint is gone already, which only a "better" leaves open. */
  readonly alreadyGone: number;
  /** Probability that the complaint is there now and would be gone after this removal. */
  cure(removal: readonly Removal[]): number;
  /** What else holds where one cause taken away for certain ends the complaint; worked out once. */
  without(cause: number): CauseRemoved;
}

/** Null when a network is too wide. The evidence must be possible. */
export function repairOracle(
  calibrated: CalibratedNetwork,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  options: InferenceOptions,
): RepairOracle | null {
  const { history, model } = calibrated;
  const next: CaseHistory = { ...history, tries: [...history.tries, { removal: [], outcome: 'cured' }] };
  const networks: CureNetwork[] = [];
  for (const branch of historyBranches(next)) {
    // The others are in the network already, as complaints that went away earlier.
    if (branch.goneAfter !== next.tries.length) continue;
    const network = encode(model, priors, evidence, branch.view);
    const circuit = compileCircuit(network, options.limits ?? DEFAULT_LIMITS);
    if (!circuit) return null;
    evaluate(circuit);
    differentiate(circuit);
    const mechanismSource = new Map<number, number>();
    network.sources.forEach(
      (source, s) => source.kind === 'mechanism' && mechanismSource.set(source.index, s),
    );
    // The last two classes of a cause: taken away by the next removal, and staying.
    const setRemoval = (cause: number, share: number, weights: Float64Array) => {
      const factors = network.sources[cause]?.factors;
      const enduring = weights.length - 1;
      const alive = (priors[cause] ?? 0) * survival(history.tries, cause, 0, history.tries.length);
      weights[enduring] = alive * (1 - share) * (factors?.[enduring] ?? 0);
      weights[enduring - 1] = alive * share * (factors?.[enduring - 1] ?? 0);
    };
    networks.push({
      circuit,
      whatIf: new WhatIf(circuit),
      mechanismSource,
      scale: branch.likelihood * Math.exp(logScale(circuit) - calibrated.logEvidence),
      ...runOf(circuit, model.causes.length),
      setRemoval,
    });
  }
  // Causes removed leave derivatives of their own behind.
  let isBackward = true;
  const cureBySum = (removal: readonly Removal[]): number => {
    if (!isBackward) for (const { circuit } of networks) differentiate(circuit);
    isBackward = true;
    let sum = 0;
    for (const { whatIf, scale, setRemoval } of networks) {
      for (const { cause, probability } of removal) setRemoval(cause, probability, whatIf.change(cause));
      sum += scale * whatIf.value();
    }
    return sum;
  };
  const cure = (removal: readonly Removal[]): number => {
    const [first, ...others] = removal;
    if (!first || others.length > 0) return cureBySum(removal);
    return networks.reduce((sum, network) => sum + withRemoval(network, network, first), 0);
  };
  const removed = new Map<number, CauseRemoved>();
  const without = (cause: number): CauseRemoved => {
    const known = removed.get(cause);
    if (known) return known;
    isBackward = false;
    const made = causeRemoved(model, networks, cause);
    removed.set(cause, made);
    return made;
  };
  const alreadyGone = calibrated.branches.reduce(
    (sum, { goneAfter, share }) => sum + (goneAfter === null ? 0 : share),
    0,
  );
  return { alreadyGone, cure, without };
}
