import type { CalibratedNetwork, InferenceOptions } from './calibrated-network.ts';
import { historyBranches, survival, type CaseHistory, type Removal } from '../network/case-history.ts';
import type { Circuit } from '../circuit/circuit.ts';
import { compileCircuit, DEFAULT_LIMITS } from '../circuit/compile-circuit.ts';
import { encode } from '../network/encode.ts';
import type { GraphEvidence } from '../network/graph-model.ts';
import type { MaxNetwork } from '../network/max-network.ts';
import { differentiate, evaluate, logScale } from '../circuit/run-circuit.ts';
import { WhatIf } from '../circuit/what-if.ts';

/** Answers "would the complaint be gone?" for any removal in one case. */
export interface RepairOracle {
  /** Probability that the complaint is gone already, which only a "better" leaves open. */
  readonly alreadyGone: number;
  /** Probability that the complaint is there now and would be gone after this removal. */
  cure(removal: readonly Removal[]): number;
  /** The networks behind it, with nothing removed yet; each evaluated and differentiated. */
  readonly networks: readonly CureNetwork[];
  /** Sets, in `weights`, that the next removal takes the cause away with probability `share`. */
  setRemoval(network: CureNetwork, cause: number, share: number, weights: Float64Array): void;
}

/** Network of the event "the complaint is gone after the next removal and not before". */
export interface CureNetwork {
  readonly network: MaxNetwork;
  readonly circuit: Circuit;
  readonly whatIf: WhatIf;
  readonly mechanismSource: ReadonlyMap<number, number>;
  /** Multiplies stored values to give probabilities given the evidence. */
  readonly scale: number;
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
    const scale = branch.likelihood * Math.exp(logScale(circuit) - calibrated.logEvidence);
    networks.push({ network, circuit, whatIf: new WhatIf(circuit), mechanismSource, scale });
  }
  const setRemoval: RepairOracle['setRemoval'] = ({ network }, cause, share, weights) => {
    const factors = network.sources[cause]?.factors;
    // The last two classes: taken away by the next removal, and staying.
    const enduring = weights.length - 1;
    const alive = (priors[cause] ?? 0) * survival(history.tries, cause, 0, history.tries.length);
    weights[enduring] = alive * (1 - share) * (factors?.[enduring] ?? 0);
    weights[enduring - 1] = alive * share * (factors?.[enduring - 1] ?? 0);
  };
  const cureBySum = (removal: readonly Removal[]): number => {
    let sum = 0;
    for (const each of networks) {
      for (const { cause, probability } of removal) {
        setRemoval(each, cause, probability, each.whatIf.change(cause));
      }
      sum += each.scale * each.whatIf.value();
    }
    return sum;
  };
  // One cause taken away with probability p: p of the way from nothing done to the cause gone for certain.
  const alone = new Map<number, number>();
  let untouched: number | null = null;
  const cure = (removal: readonly Removal[]): number => {
    const [first, ...others] = removal;
    if (!first || others.length > 0) return cureBySum(removal);
    const { cause, probability } = first;
    untouched ??= cureBySum([]);
    const gone = alone.get(cause) ?? cureBySum([{ cause, probability: 1 }]);
    alone.set(cause, gone);
    return (1 - probability) * untouched + probability * gone;
  };
  const alreadyGone = calibrated.branches.reduce(
    (sum, { goneAfter, share }) => sum + (goneAfter === null ? 0 : share),
    0,
  );
  return { alreadyGone, cure, networks, setRemoval };
}
