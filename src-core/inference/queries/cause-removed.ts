import type { Removal } from '../network/case-history.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { GraphModel } from '../network/graph-model.ts';
import {
  differentiate,
  partOfSource,
  partValue,
  stateProbability,
  sumOf,
  withWeights,
} from '../circuit/run-circuit.ts';
import type { WhatIf } from '../circuit/what-if.ts';

/** Network of the event "the complaint is gone after the next removal and not before", with nothing removed yet. */
export interface CureNetwork extends Run {
  readonly circuit: Circuit;
  readonly whatIf: WhatIf;
  readonly mechanismSource: ReadonlyMap<number, number>;
  /** Multiplies stored values to give probabilities given the evidence. */
  readonly scale: number;
  /** Sets, in `weights`, that the next removal takes the cause away with probability `share`. */
  setRemoval(cause: number, share: number, weights: Float64Array): void;
}

/** What is kept of a run forward and backward. */
interface Run {
  /** Values of the connected parts. */
  readonly parts: readonly number[];
  /** [cause * states + state]: derivatives by the causes' weights. */
  readonly slopes: Float64Array;
}

/** The run that a circuit holds; call after `differentiate`. */
export function runOf(circuit: Circuit, causeCount: number): Run {
  const states = circuit.weights[0]?.length ?? 0;
  const slopes = new Float64Array(causeCount * states);
  for (let cause = 0; cause < causeCount; cause++)
    slopes.set(circuit.weightDerivatives[cause] ?? [], cause * states);
  return { parts: circuit.roots.map((_, part) => partValue(circuit, part)), slopes };
}

/** The complaint is gone once this cause is, and not before. */
export interface CauseRemoved {
  /** Chance, if it is so, that each cause and mechanism was at work. */
  readonly causes: Float64Array;
  readonly mechanisms: Float64Array;
  /** Probability that the complaint would be gone with this other cause removed as well. */
  together(other: number): number;
}

/**
 * Runs the networks with one cause taken away for certain, and puts their values back; derivatives stay as they are then.
 * That one run holds the chances of all the others, and what the removal of any second cause would do.
 */
export function causeRemoved(
  model: GraphModel,
  networks: readonly CureNetwork[],
  cause: number,
): CauseRemoved {
  const causes = new Float64Array(model.causes.length);
  const mechanisms = new Float64Array(model.mechanisms.length);
  let total = 0;
  const runs = networks.map((network): Run => {
    const { circuit, scale, setRemoval } = network;
    const weights = Float64Array.from(circuit.weights[cause] ?? []);
    setRemoval(cause, 1, weights);
    return withWeights(circuit, cause, weights, () => {
      differentiate(circuit);
      const run = runOf(circuit, causes.length);
      const share = run.parts.reduce((product, value) => product * value, scale);
      if (share > 0) addMarginals(model, network, share, causes, mechanisms);
      total += share;
      return run;
    });
  });
  if (total > 0) {
    for (let c = 0; c < causes.length; c++) causes[c] = (causes[c] as number) / total;
    for (let m = 0; m < mechanisms.length; m++) mechanisms[m] = (mechanisms[m] as number) / total;
  }
  const together = (other: number) =>
    networks.reduce((sum, network, k) => {
      const run = runs[k];
      return run ? sum + withRemoval(network, run, { cause: other, probability: 1 }) : sum;
    }, 0);
  return { causes, mechanisms, together };
}

/**
 * Probability of the network's event with a cause taken away in a run: linear in the cause's weights, so it is these times the
 * derivatives, a sum of positive terms.
 */
export function withRemoval(
  { circuit, scale, setRemoval }: CureNetwork,
  { parts, slopes }: Run,
  { cause, probability }: Removal,
): number {
  const stored = circuit.weights[cause] ?? new Float64Array(0);
  const weights = stored.slice();
  setRemoval(cause, probability, weights);
  const own = partOfSource(circuit, cause);
  const value =
    own < 0
      ? sumOf(weights) / sumOf(stored)
      : weights.reduce(
          (sum, weight, state) => sum + weight * (slopes[cause * weights.length + state] ?? 0),
          0,
        );
  return parts.reduce((product, part, k) => (k === own ? product : product * part), scale * value);
}

/** Adds the chances of a run, as they are with the weights at hand, times `share`. */
function addMarginals(
  model: GraphModel,
  { circuit, mechanismSource }: CureNetwork,
  share: number,
  causes: Float64Array,
  mechanisms: Float64Array,
): void {
  const alive = (source: number) => {
    const states = circuit.weights[source]?.length ?? 0;
    return stateProbability(circuit, source, states - 1) + stateProbability(circuit, source, states - 2);
  };
  const chances = causes.map((_, cause) => alive(cause));
  for (let c = 0; c < chances.length; c++) causes[c] = (causes[c] as number) + share * (chances[c] as number);
  model.mechanisms.forEach((mechanism, m) => {
    const source = mechanismSource.get(m);
    const going = source === undefined ? goingAlone(mechanism, chances) : alive(source);
    mechanisms[m] = (mechanisms[m] as number) + share * going;
  });
}

/** Chance that a mechanism goes, its causes taken as independent. */
export function goingAlone(gate: GraphModel['mechanisms'][number], causes: Float64Array): number {
  let off = 1 - gate.leak;
  for (const { cause, probability } of gate.links) off *= 1 - probability * (causes[cause] as number);
  return 1 - off;
}
