import type { Circuit, SettleNode, SumNode } from './circuit.ts';

/*
 * The inner loops. Indices come from the compiler and are in range; `as number` tells the type checker so
 * without a test in the loop.
 */

const EMPTY = new Float64Array(0);

export function weightsOf(circuit: Circuit, source: number): Float64Array {
  return circuit.weights[source] ?? EMPTY;
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
