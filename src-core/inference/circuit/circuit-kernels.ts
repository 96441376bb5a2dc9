import type { Circuit, Expansion, JoinNode, SettleNode, SumNode } from './circuit.ts';

/*
 * The inner loops. Indices come from the compiler and are in range; `as number` tells the type checker so
 * without a test in the loop.
 */

const EMPTY = new Float64Array(0);

export function weightsOf(circuit: Circuit, source: number): Float64Array {
  return circuit.weights[source] ?? EMPTY;
}

/** The right table of a join with shared auxiliary axes expanded to pairs. */
export function expandRight(node: JoinNode, right: Float64Array, into: 'value' | 'scratch'): Float64Array {
  let current = right;
  for (const expansion of node.expansions) {
    const target = expansion[into];
    expandAxis(expansion, current, target);
    current = target;
  }
  return current;
}

function expandAxis({ outer, inner, pairs }: Expansion, from: Float64Array, to: Float64Array): void {
  const { states, count, sums } = pairs;
  for (let a = 0; a < outer; a++) {
    for (let p = 0; p < count; p++) {
      const target = (a * count + p) * inner;
      for (let b = 0; b < inner; b++) to[target + b] = 0;
      for (let s = 0; s < states; s++) {
        const factor = sums[p * states + s] as number;
        if (factor === 0) continue;
        const source = (a * states + s) * inner;
        for (let b = 0; b < inner; b++) {
          to[target + b] = (to[target + b] as number) + factor * (from[source + b] as number);
        }
      }
    }
  }
}

/** Transpose of `expandAxis`: adjoint of the expanded table to that of the plain one. */
export function expandAxisBackward(
  { outer, inner, pairs }: Expansion,
  from: Float64Array,
  to: Float64Array,
): void {
  const { states, count, sums } = pairs;
  to.fill(0);
  for (let a = 0; a < outer; a++) {
    for (let p = 0; p < count; p++) {
      const source = (a * count + p) * inner;
      for (let s = 0; s < states; s++) {
        const factor = sums[p * states + s] as number;
        if (factor === 0) continue;
        const target = (a * states + s) * inner;
        for (let b = 0; b < inner; b++) {
          to[target + b] = (to[target + b] as number) + factor * (from[source + b] as number);
        }
      }
    }
  }
}

export function sumJoin(
  node: JoinNode,
  left: Float64Array,
  expandedRight: Float64Array,
  out: Float64Array,
): void {
  const { left: l, right: r, out: o } = node.plan;
  out.fill(0);
  for (let t = 0; t < o.length; t++) {
    const at = o[t] as number;
    out[at] =
      (out[at] as number) + (left[l[t] as number] as number) * (expandedRight[r[t] as number] as number);
  }
}

/** Adjoints of both tables of a join; that of the right one still expanded. */
export function joinBackward(
  node: JoinNode,
  left: Float64Array,
  expandedRight: Float64Array,
  leftAdjoint: Float64Array,
  rightAdjoint: Float64Array,
): void {
  const { left: l, right: r, out: o } = node.plan;
  const adjoint = node.adjoint;
  leftAdjoint.fill(0);
  rightAdjoint.fill(0);
  for (let t = 0; t < o.length; t++) {
    const slope = adjoint[o[t] as number] as number;
    const i = l[t] as number;
    const j = r[t] as number;
    leftAdjoint[i] = (leftAdjoint[i] as number) + slope * (expandedRight[j] as number);
    rightAdjoint[j] = (rightAdjoint[j] as number) + slope * (left[i] as number);
  }
}

/** Sums the last axis against a vector and divides by 2^exponent. */
export function sumLast(vector: Float64Array, from: Float64Array, out: Float64Array, exponent: number): void {
  const count = vector.length;
  const scale = exponent === 0 ? 1 : 2 ** -exponent;
  for (let i = 0; i < out.length; i++) {
    let sum = 0;
    const start = i * count;
    for (let s = 0; s < count; s++) sum += (vector[s] as number) * (from[start + s] as number);
    out[i] = sum * scale;
  }
}

/** Adjoint of the summed table, and (added to `vectorSlope`) of the vector. */
export function sumLastBackward(
  node: SumNode,
  vector: Float64Array,
  from: Float64Array,
  fromAdjoint: Float64Array,
  vectorSlope: Float64Array | null,
): void {
  const count = vector.length;
  const scale = node.exponent === 0 ? 1 : 2 ** -node.exponent;
  for (let i = 0; i < node.adjoint.length; i++) {
    const slope = (node.adjoint[i] as number) * scale;
    const start = i * count;
    for (let s = 0; s < count; s++) {
      fromAdjoint[start + s] = slope * (vector[s] as number);
      if (vectorSlope) vectorSlope[s] = (vectorSlope[s] as number) + slope * (from[start + s] as number);
    }
  }
}

export function pickEntries(node: SettleNode, from: Float64Array, out: Float64Array): void {
  const { picks } = node;
  for (let i = 0; i < out.length; i++) out[i] = from[picks[i] as number] as number;
}

/** Tables whose largest entry lies in between are left as they are. */
const SMALLEST_AT_EASE = 2 ** -32;
const LARGEST_AT_EASE = 2 ** 32;

/**
 * Keeps a table in range: one whose largest entry is very small or very large is divided by the power of two that
 * brings it into [0.5, 1). Returns the exponent.
 */
export function normalise(values: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    if (value > largest) largest = value;
  }
  if (!(largest > 0) || (largest > SMALLEST_AT_EASE && largest < LARGEST_AT_EASE)) return 0;
  const exponent = Math.max(-1000, Math.min(1000, Math.floor(Math.log2(largest)) + 1));
  const scale = 2 ** -exponent;
  for (let i = 0; i < values.length; i++) values[i] = (values[i] as number) * scale;
  return exponent;
}
