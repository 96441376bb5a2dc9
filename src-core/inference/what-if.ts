import type { Circuit } from './circuit.ts';
import * as kernels from './circuit-kernels.ts';
import { partOfSource, partValue, sumOf } from './run-circuit.ts';

const EMPTY = new Float64Array(0);

/**
 * Re-runs an evaluated and differentiated circuit with other weights for a few sources, leaving the stored run
 * as it is. Only tables between the changed leaves and the point where they meet are summed again; above that
 * point the answer is the stored derivative times the new table, because the value is linear in it.
 */
export class WhatIf {
  private readonly circuit: Circuit;
  private readonly stamps: Int32Array;
  private stamp = 0;
  private readonly changed = new Map<number, Float64Array>();

  constructor(circuit: Circuit) {
    this.circuit = circuit;
    this.stamps = new Int32Array(circuit.nodes.length);
  }

  /** Weights of a source in the next run; the caller may fill in place. Starts as a copy of the stored ones. */
  change(source: number): Float64Array {
    let weights = this.changed.get(source);
    if (!weights) {
      weights = Float64Array.from(this.circuit.weights[source] ?? EMPTY);
      this.changed.set(source, weights);
    }
    return weights;
  }

  /**
   * Probability of the evidence under the changed weights relative to `reference`, the product of the stored
   * part values and free totals. Forgets the changes.
   */
  ratio(): number {
    const values = this.run();
    let ratio = 1;
    for (const [part, value] of values.parts) ratio *= value / partValue(this.circuit, part);
    return ratio * values.free;
  }

  /**
   * Value of the evidence under the changed weights in units of the circuit's own scale (the powers of two of
   * its sums and its constant left out): the product over all connected parts. Right also when the stored value
   * is 0. Forgets the changes.
   */
  value(): number {
    const values = this.run();
    let product = values.free;
    this.circuit.roots.forEach((_, part) => (product *= values.parts.get(part) ?? partValue(this.circuit, part)));
    return product;
  }

  private run(): { readonly parts: ReadonlyMap<number, number>; readonly free: number } {
    this.stamp++;
    const pendingByPart = new Map<number, number[]>();
    let free = 1;
    for (const [source, weights] of this.changed) {
      const part = partOfSource(this.circuit, source);
      if (part < 0) {
        free *= sumOf(weights) / sumOf(this.circuit.weights[source] ?? EMPTY);
        continue;
      }
      const pending = pendingByPart.get(part);
      const reader = this.circuit.readerOf[source] ?? -1;
      if (pending) insert(pending, reader);
      else pendingByPart.set(part, [reader]);
    }
    const parts = new Map<number, number>();
    for (const [part, pending] of pendingByPart) parts.set(part, this.climb(pending));
    this.changed.clear();
    return { parts, free };
  }

  /** Recomputes upwards, lowest node first, until one node is left that all changes pass through. */
  private climb(pending: number[]): number {
    for (;;) {
      const index = pending.pop() ?? -1;
      const node = this.circuit.nodes[index];
      if (!node) return 0;
      const variant = this.recompute(index);
      if (pending.length === 0) {
        let value = 0;
        for (let i = 0; i < variant.length; i++) value += (variant[i] as number) * (node.adjoint[i] as number);
        return value;
      }
      this.stamps[index] = this.stamp;
      insert(pending, node.parent);
    }
  }

  private recompute(index: number): Float64Array {
    const node = this.circuit.nodes[index];
    if (!node) return EMPTY;
    const out = (node.variant ??= new Float64Array(node.value.length));
    switch (node.kind) {
      case 'leaf':
        out.set(node.value);
        break;
      case 'cause':
        kernels.sumCause(node, this.weights(node.source), out);
        break;
      case 'join': {
        const isRightChanged = this.stamps[node.right] === this.stamp;
        const right = isRightChanged
          ? kernels.expandRight(node, this.table(node.right), 'scratch')
          : (node.expansions.at(-1)?.value ?? this.table(node.right));
        kernels.sumJoin(node, this.table(node.left), right, out);
        break;
      }
      case 'sum':
        kernels.sumLast(node.closes ?? this.weights(node.source), this.table(node.from), out, node.exponent);
        break;
      case 'settle':
        kernels.pickEntries(node, this.table(node.from), out);
        break;
    }
    return out;
  }

  private weights(source: number): Float64Array {
    return this.changed.get(source) ?? kernels.weightsOf(this.circuit, source);
  }

  private table(index: number): Float64Array {
    const node = this.circuit.nodes[index];
    if (!node) return EMPTY;
    return this.stamps[index] === this.stamp && node.variant ? node.variant : node.value;
  }
}

/** Inserts into a list sorted from high to low, once. */
function insert(sorted: number[], value: number): void {
  let at = sorted.length;
  while (at > 0 && (sorted[at - 1] ?? Infinity) < value) at--;
  if (sorted[at - 1] !== value) sorted.splice(at, 0, value);
}
