import type { Circuit, CircuitNode } from './circuit.ts';
import { chainBackward, runChain } from './cause-chain.ts';
import { joinTables, joinTablesBackward } from './join-tables.ts';
import * as kernels from './circuit-kernels.ts';

const EMPTY = new Float64Array(0);

/**
 * Runs the circuit forward. Returns the natural log of the probability of the evidence, -Infinity when the
 * evidence is impossible.
 */
export function evaluate(circuit: Circuit): number {
  const { nodes } = circuit;
  for (let k = 0; k < nodes.length; k++) {
    const node = nodes[k] as CircuitNode;
    if (node.kind === 'leaf') continue;
    if (node.kind === 'sum') node.exponent = 0;
    evaluateNode(circuit, node);
    if (node.kind === 'sum') node.exponent = kernels.normalise(node.value);
  }
  return logValue(circuit);
}

/**
 * What `look` sees with other weights of one source: the part of the circuit that depends on it is run forward, and put back
 * afterwards. The powers of two taken out of sums stay as they are, so values stay comparable with those before.
 */
export function withWeights<T>(circuit: Circuit, source: number, weights: Float64Array, look: () => T): T {
  const { nodes } = circuit;
  const stored = circuit.weights[source] as Float64Array;
  const kept = stored.slice();
  const reader = nodes[circuit.readerOf[source] as number];
  const above: CircuitNode[] = [];
  for (let k = reader?.parent ?? -1; k >= 0; k = above.at(-1)?.parent ?? -1)
    above.push(nodes[k] as CircuitNode);
  const values = above.map(({ value }) => value.slice());
  const readAnew = () => {
    if (reader?.kind === 'causes') {
      runChain(reader, circuit.weights, reader.sources.indexOf(source), circuit.scratch);
    } else if (reader) evaluateNode(circuit, reader);
  };
  stored.set(weights);
  readAnew();
  for (const node of above) evaluateNode(circuit, node);
  try {
    return look();
  } finally {
    stored.set(kept);
    readAnew();
    above.forEach(({ value }, k) => value.set(values[k] as Float64Array));
  }
}

function evaluateNode(circuit: Circuit, node: CircuitNode): void {
  const { nodes } = circuit;
  switch (node.kind) {
    case 'leaf':
      break;
    case 'causes':
      runChain(node, circuit.weights, 0, circuit.scratch);
      break;
    case 'join': {
      const left = nodes[node.left] as CircuitNode;
      const right = nodes[node.right] as CircuitNode;
      joinTables(node.plan, left.value, right.value, node.value, circuit.scratch);
      break;
    }
    case 'sum': {
      const vector = node.closes ?? (circuit.weights[node.source] as Float64Array);
      kernels.sumLast(vector, (nodes[node.from] as CircuitNode).value, node.value, node.exponent);
      break;
    }
    case 'settle':
      kernels.pickEntries(node, (nodes[node.from] as CircuitNode).value, node.value);
      break;
  }
}

/**
 * Runs the circuit backward, after `evaluate`: fills every adjoint and `weightDerivatives`. The derivative is of
 * the value of the node's own connected part, as stored at its root.
 */
export function differentiate(circuit: Circuit): void {
  const { nodes } = circuit;
  for (const slopes of circuit.weightDerivatives) slopes.fill(0);
  for (const root of circuit.roots) nodes[root]?.adjoint.fill(1);
  for (let k = nodes.length - 1; k >= 0; k--) {
    const node = nodes[k];
    if (node?.kind === 'causes') {
      chainBackward(node, circuit.weights, circuit.weightDerivatives, circuit.scratch);
    } else if (node?.kind === 'join') {
      const left = nodes[node.left];
      const right = nodes[node.right];
      if (!left || !right) continue;
      joinTablesBackward(
        node.plan,
        left.value,
        right.value,
        node.adjoint,
        left.adjoint,
        right.adjoint,
        circuit.scratch,
      );
    } else if (node?.kind === 'sum') {
      const from = nodes[node.from];
      if (!from) continue;
      const slopes = node.closes ? null : (circuit.weightDerivatives[node.source] ?? null);
      const vector = node.closes ?? kernels.weightsOf(circuit, node.source);
      kernels.sumLastBackward(node, vector, from.value, from.adjoint, slopes);
    } else if (node?.kind === 'settle') {
      const target = nodes[node.from]?.adjoint ?? EMPTY;
      target.fill(0);
      for (let i = 0; i < node.adjoint.length; i++) {
        const at = node.picks[i] as number;
        target[at] = (target[at] as number) + (node.adjoint[i] as number);
      }
    }
  }
}

/** Value of a connected part as stored at its root (to be multiplied by the powers of two of its sums). */
export function partValue(circuit: Circuit, part: number): number {
  return circuit.nodes[circuit.roots[part] ?? -1]?.value[0] ?? 0;
}

/** Connected part that a source belongs to; -1 for a free cause. */
export function partOfSource(circuit: Circuit, source: number): number {
  return circuit.partOf[circuit.readerOf[source] ?? -1] ?? -1;
}

/** Probability of each state of a source given the evidence; call after `differentiate`. */
export function stateProbability(circuit: Circuit, source: number, state: number): number {
  const weights = circuit.weights[source] ?? EMPTY;
  const part = partOfSource(circuit, source);
  if (part < 0) return (weights[state] ?? 0) / sumOf(weights);
  return (
    ((weights[state] ?? 0) * (circuit.weightDerivatives[source]?.[state] ?? 0)) / partValue(circuit, part)
  );
}

function logValue(circuit: Circuit): number {
  let log = logScale(circuit);
  circuit.roots.forEach((_, part) => (log += Math.log(partValue(circuit, part))));
  return log;
}

/** Log of all that the stored part values leave out: the constant, powers of two, and free causes. */
export function logScale(circuit: Circuit): number {
  let log = circuit.logConstant;
  let exponent = 0;
  for (const node of circuit.nodes) if (node.kind === 'sum') exponent += node.exponent;
  circuit.weights.forEach((weights, source) => {
    if (circuit.readerOf[source] === -1) log += Math.log(sumOf(weights));
  });
  return log + exponent * Math.LN2;
}

/** Sum of a few weights. */
export function sumOf(weights: Float64Array): number {
  let total = 0;
  for (const weight of weights) total += weight;
  return total;
}
