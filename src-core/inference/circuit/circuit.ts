import type { JoinPlan } from './join-plan.ts';
import type { TableShape } from './table-shape.ts';

/**
 * A compiled network: a tree of tables from leaves (causes, links, leaks) to one number for each connected
 * part. Only sums and products of non-negative numbers occur, so every result keeps its relative precision.
 * Run forward it gives the probability of the evidence; run backward it gives the derivative by every leaf,
 * and with that every posterior at once (Darwiche, A differential approach to inference in Bayesian networks,
 * J. ACM 50 (2003)).
 */
export interface Circuit {
  /** Children before parents. */
  readonly nodes: readonly CircuitNode[];
  /** Last node of each connected part. */
  readonly roots: readonly number[];
  readonly logConstant: number;
  /** Weights of each source's states. Those of a mechanism include the scale of its states (powers of two). */
  readonly weights: readonly Float64Array[];
  /** Node that reads a source's weights; -1 for a source that no evidence links to (a free cause). */
  readonly readerOf: Int32Array;
  /** Connected part of each node. */
  readonly partOf: Int32Array;
  /** Working space for three tables of the largest chain of causes, and for the sums of any join. */
  readonly scratch: Float64Array;
  /** Derivative of the part's value by each weight, filled by `differentiate`. */
  readonly weightDerivatives: readonly Float64Array[];
  /** Largest table (entries) and terms summed in one forward run, for limits and reports. */
  readonly largestTable: number;
  readonly terms: number;
}

interface NodeBase {
  readonly shape: TableShape;
  /** Stored entries; the true table is value * 2^(exponents of this node and those below). */
  readonly value: Float64Array;
  readonly adjoint: Float64Array;
  /** Values of a what-if run, which leaves the stored ones alone; made when first needed. */
  variant: Float64Array | null;
  parent: number;
}

/** Constant table: a link, a leak. */
export interface LeafNode extends NodeBase {
  readonly kind: 'leaf';
}

/**
 * Causes that raise the same auxiliaries and are summed out at once, one after the other: each adds to the table of those
 * before it, weighed with its states, what that table becomes when it raises its auxiliaries further.
 */
export interface CausesNode extends NodeBase {
  readonly kind: 'causes';
  readonly sources: Int32Array;
  /** States of each of them, "absent" included. */
  readonly states: number;
  /** before[k * size + entry]: the table of all before source k of the chain. */
  readonly before: Float64Array;
  /** Matrices of each source, state and axis: see `raisingMatrices`. */
  readonly steps: Float64Array;
}

export interface JoinNode extends NodeBase {
  readonly kind: 'join';
  readonly left: number;
  readonly right: number;
  readonly plan: JoinPlan;
}

/** Sums out the last axis against a vector: weights of a source, or the likelihood that closes a finding. */
export interface SumNode extends NodeBase {
  readonly kind: 'sum';
  readonly from: number;
  /** Source whose weights are the vector, or -1 with `closes` given. */
  readonly source: number;
  readonly closes: Float64Array | null;
  /** Accumulator that `closes` closes, and the vector that would close it if every state were as likely; or -1, null. */
  readonly auxiliary: number;
  readonly unclosed: Float64Array | null;
  exponent: number;
}

/** An auxiliary that is complete becomes the state of its mechanism: entries are picked from `from`. */
export interface SettleNode extends NodeBase {
  readonly kind: 'settle';
  readonly from: number;
  readonly picks: Int32Array;
}

export type CircuitNode = LeafNode | CausesNode | JoinNode | SumNode | SettleNode;
