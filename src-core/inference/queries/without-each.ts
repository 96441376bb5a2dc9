import type { SumNode } from '../circuit/circuit.ts';
import { compileCircuit, DEFAULT_LIMITS, type WidthLimits } from '../circuit/compile-circuit.ts';
import { encode } from '../network/encode.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';
import { differentiate, evaluate, partValue } from '../circuit/run-circuit.ts';
import { stateScales } from '../circuit/state-scales.ts';
import { PLAIN_WORLD } from '../network/worlds.ts';
import { WhatIf } from '../circuit/what-if.ts';

export interface EvidenceWithoutEach {
  /** Natural log of the probability of all findings together. */
  readonly whole: number;
  /** The same of all findings but one, by finding; empty when the findings exclude each other. */
  readonly without: Float64Array;
}

/**
 * Probability of the evidence with each finding left out in turn, from one circuit. A finding with an auxiliary is
 * left out by summing that over all its states against the derivative there; one that is only factors on its parents
 * by a partial run without them. Null when the network is too wide.
 */
export function evidenceWithoutEach(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  limits: WidthLimits = DEFAULT_LIMITS,
): EvidenceWithoutEach | null {
  const network = encode(model, priors, evidence, PLAIN_WORLD, true);
  const circuit = compileCircuit(network, limits);
  if (!circuit) return null;
  const whole = evaluate(circuit);
  if (whole === -Infinity) return { whole, without: new Float64Array(0) };
  differentiate(circuit);
  const places = network.findings ?? [];
  const closing = new Map<number, number>();
  circuit.nodes.forEach(
    (node, k) => node.kind === 'sum' && node.auxiliary >= 0 && closing.set(node.auxiliary, k),
  );
  const whatIf = new WhatIf(circuit);
  const scales = stateScales(network);

  /** Weight of a source's state with the factors of all findings but one. */
  const weightWithout = (left: number, source: number, state: number): number => {
    const { kind, settledBy } = network.sources[source] ?? { kind: 'cause', settledBy: -1 };
    const base = kind === 'cause' ? (priors[source] ?? 0) : 1;
    const own = base * (settledBy < 0 ? 1 : (scales[settledBy]?.[state] ?? 1));
    return places.reduce(
      (weight, { factors }, k) =>
        k === left
          ? weight
          : factors.reduce(
              (w, one) => (one.source === source && one.state === state ? w * one.factor : w),
              weight,
            ),
      own,
    );
  };
  const without = Float64Array.from(places, ({ auxiliary, constant, factors }, k) => {
    const node = circuit.nodes[closing.get(auxiliary) ?? -1];
    if (node?.kind === 'sum') {
      const part = circuit.partOf[closing.get(auxiliary) ?? -1] ?? -1;
      return (
        whole + Math.log(valueUnclosed(node, circuit.nodes[node.from]?.value) / partValue(circuit, part))
      );
    }
    for (const { source, state } of factors) whatIf.change(source)[state] = weightWithout(k, source, state);
    return whole - Math.log(constant) + Math.log(whatIf.ratio());
  });
  return { whole, without };
}

/** Value of the node's connected part if the node closed its auxiliary whatever its state. */
function valueUnclosed(node: SumNode, from: Float64Array = new Float64Array(0)): number {
  const { adjoint, exponent, unclosed } = node;
  const count = unclosed?.length ?? 0;
  let value = 0;
  for (let i = 0; i < adjoint.length; i++) {
    let sum = 0;
    for (let s = 0; s < count; s++) sum += (unclosed?.[s] ?? 0) * (from[i * count + s] as number);
    value += (adjoint[i] as number) * sum;
  }
  return value * 2 ** -exponent;
}
