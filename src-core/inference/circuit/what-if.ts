import type { Circuit } from './circuit.ts';
import { chainAnew } from './cause-chain.ts';
import { joinTables } from './join-tables.ts';
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
  /** Changed weights by source, kept from run to run; `changed` names those of the next run. */
  private readonly buffers: (Float64Array | undefined)[];
  private readonly isChanged: Uint8Array;
  private readonly changed: number[] = [];
  private readonly pendingOf: number[][];
  private readonly touchedParts: number[] = [];
  private readonly partValues: Float64Array;
  private free = 1;

  constructor(circuit: Circuit) {
    this.circuit = circuit;
    this.stamps = new Int32Array(circuit.nodes.length);
    this.buffers = new Array<Float64Array | undefined>(circuit.weights.length);
    this.isChanged = new Uint8Array(circuit.weights.length);
    this.pendingOf = circuit.roots.map(() => []);
    this.partValues = new Float64Array(circuit.roots.length);
  }

  /** Weights of a source in the next run; the caller may fill in place. Starts as a copy of the stored ones. */
  change(source: number): Float64Array {
    const stored = this.circuit.weights[source] ?? EMPTY;
    const buffer = (this.buffers[source] ??= new Float64Array(stored.length));
    if (this.isChanged[source] === 0) {
      buffer.set(stored);
      this.isChanged[source] = 1;
      this.changed.push(source);
    }
    return buffer;
  }

  /**
   * Probability of the evidence under the changed weights relative to `reference`, the product of the stored
   * part values and free totals. Forgets the changes.
   */
  ratio(): number {
    this.run();
    let ratio = this.free;
    for (const part of this.touchedParts)
      ratio *= (this.partValues[part] as number) / partValue(this.circuit, part);
    return ratio;
  }

  /**
   * Value of the evidence under the changed weights in units of the circuit's own scale (the powers of two of
   * its sums and its constant left out): the product over all connected parts. Right also when the stored value
   * is 0. Forgets the changes.
   */
  value(): number {
    this.run();
    let product = this.free;
    for (let part = 0; part < this.circuit.roots.length; part++) {
      product *= this.touchedParts.includes(part)
        ? (this.partValues[part] as number)
        : partValue(this.circuit, part);
    }
    return product;
  }

  private run(): void {
    this.stamp++;
    this.free = 1;
    this.touchedParts.length = 0;
    for (const source of this.changed) {
      const part = partOfSource(this.circuit, source);
      if (part < 0) {
        this.free *= sumOf(this.weights(source)) / sumOf(this.circuit.weights[source] ?? EMPTY);
        continue;
      }
      const pending = this.pendingOf[part] as number[];
      if (pending.length === 0) this.touchedParts.push(part);
      insert(pending, this.circuit.readerOf[source] as number);
    }
    for (const part of this.touchedParts)
      this.partValues[part] = this.climb(this.pendingOf[part] as number[]);
    for (const source of this.changed) this.isChanged[source] = 0;
    this.changed.length = 0;
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
        for (let i = 0; i < variant.length; i++)
          value += (variant[i] as number) * (node.adjoint[i] as number);
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
      case 'causes': {
        const first = node.sources.findIndex((source) => this.isChanged[source] === 1);
        const weightsOf = (source: number) => this.weights(source);
        chainAnew(node, weightsOf, Math.max(0, first), out, this.circuit.scratch);
        break;
      }
      case 'join':
        joinTables(node.plan, this.table(node.left), this.table(node.right), out, this.circuit.scratch);
        break;
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
    const buffer = this.buffers[source];
    return buffer && this.isChanged[source] === 1 ? buffer : kernels.weightsOf(this.circuit, source);
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
