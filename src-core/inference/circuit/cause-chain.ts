import type { Accumulator, MaxLink } from '../network/max-network.ts';
import type { Arena } from './arena.ts';
import type { CausesNode } from './circuit.ts';

/*
 * Causes that raise the same auxiliaries, summed out one after the other. A cause in a state that is not "absent" takes the
 * table of those before it to one where each auxiliary has been raised further, one axis at a time: a matrix on the axis.
 * That is positive terms only, like a join of two tables, and costs a step an entry and axis where the join of two tables
 * that share k axes of two states costs 3^k. Indices come from the compiler and are in range.
 */

/** Causes in one chain: a what-if runs the chain again, so chains stay short and are joined in a tree. */
export const CHAIN_LENGTH = 24;

/**
 * Matrices of one source: for each state but "absent" and each of its links, in the order given, `matrix[to * states + from]`
 * as stored tables take it. `scales` are those of the links' auxiliaries.
 */
export function raisingMatrices(
  links: readonly MaxLink[],
  auxiliaries: readonly Accumulator[],
  scales: readonly Float64Array[],
  sourceStates: number,
  into: Float64Array,
): void {
  let at = 0;
  for (let s = 1; s < sourceStates; s++) {
    links.forEach(({ auxiliary, rows }, k) => {
      const { states = 0, join } = auxiliaries[auxiliary] ?? {};
      const scale = scales[k];
      for (let from = 0; from < states; from++) {
        for (let raised = 0; raised < states; raised++) {
          const to = join?.[from * states + raised] ?? 0;
          const cell = at + to * states + from;
          const share = (scale?.[from] ?? 1) / (scale?.[to] ?? 1);
          into[cell] = (into[cell] as number) + (rows[s * states + raised] ?? 0) * share;
        }
      }
      at += states * states;
    });
  }
}

/** Lays out a chain; `stepSize` is the length of one source's matrices. A dry one has no entries. */
export function chainArrays(
  count: number,
  size: number,
  stepSize: number,
  arena: Arena,
  isDry: boolean,
): Pick<CausesNode, 'before' | 'steps'> {
  const before = arena.floats(isDry ? 0 : count * size);
  // Before the first nothing is raised.
  if (!isDry) before[0] = 1;
  return { before, steps: arena.floats(isDry ? 0 : count * stepSize) };
}

/** Runs the chain forward from a source on, keeping the table before each. `scratch` holds a table. */
export function runChain(
  node: CausesNode,
  weights: readonly Float64Array[],
  position: number,
  scratch: Float64Array,
): void {
  const { before, sources, value } = node;
  const size = value.length;
  for (let k = position; k < sources.length; k++) {
    const from = k * size;
    const isLast = k === sources.length - 1;
    const [out, to] = isLast ? [value, 0] : [before, from + size];
    const weight = weights[sources[k] as number] as Float64Array;
    const absent = weight[0] as number;
    for (let i = 0; i < size; i++) out[to + i] = absent * (before[from + i] as number);
    for (let s = 1; s < weight.length; s++) {
      for (let i = 0; i < size; i++) scratch[i] = before[from + i] as number;
      raise(node, k, s, scratch);
      addScaled(weight[s] as number, scratch, size, out, to);
    }
  }
}

/** The chain with other weights from `position` on, leaving the stored run as it is. `scratch` holds two tables. */
export function chainAnew(
  node: CausesNode,
  weightsOf: (source: number) => Float64Array,
  position: number,
  out: Float64Array,
  scratch: Float64Array,
): void {
  const { before, sources } = node;
  const size = out.length;
  for (let i = 0; i < size; i++) out[i] = before[position * size + i] as number;
  for (let k = position; k < sources.length; k++) {
    const weight = weightsOf(sources[k] as number);
    const absent = weight[0] as number;
    const next = scratch.subarray(size, 2 * size);
    for (let i = 0; i < size; i++) next[i] = absent * (out[i] as number);
    for (let s = 1; s < weight.length; s++) {
      for (let i = 0; i < size; i++) scratch[i] = out[i] as number;
      raise(node, k, s, scratch);
      addScaled(weight[s] as number, scratch, size, next, 0);
    }
    for (let i = 0; i < size; i++) out[i] = next[i] as number;
  }
}

/** Runs the chain backward: fills the derivatives by its sources' weights. `scratch` holds three tables. */
export function chainBackward(
  node: CausesNode,
  weights: readonly Float64Array[],
  derivatives: readonly Float64Array[],
  scratch: Float64Array,
): void {
  const { before, sources, adjoint } = node;
  const size = adjoint.length;
  const slope = scratch.subarray(size, 2 * size);
  const next = scratch.subarray(2 * size, 3 * size);
  for (let i = 0; i < size; i++) slope[i] = adjoint[i] as number;
  for (let k = sources.length - 1; k >= 0; k--) {
    const weight = weights[sources[k] as number] as Float64Array;
    const into = derivatives[sources[k] as number] as Float64Array;
    const from = k * size;
    const absent = weight[0] as number;
    let sum = 0;
    for (let i = 0; i < size; i++) {
      sum += (slope[i] as number) * (before[from + i] as number);
      next[i] = absent * (slope[i] as number);
    }
    into[0] = sum;
    for (let s = 1; s < weight.length; s++) {
      for (let i = 0; i < size; i++) scratch[i] = slope[i] as number;
      raiseBackward(node, k, s, scratch);
      let product = 0;
      for (let i = 0; i < size; i++) product += (scratch[i] as number) * (before[from + i] as number);
      into[s] = product;
      addScaled(weight[s] as number, scratch, size, next, 0);
    }
    for (let i = 0; i < size; i++) slope[i] = next[i] as number;
  }
}

function addScaled(factor: number, from: Float64Array, size: number, out: Float64Array, to: number): void {
  for (let i = 0; i < size; i++) out[to + i] = (out[to + i] as number) + factor * (from[i] as number);
}

/** Offset of the matrices of source `k` of the chain in state `s`. */
function stepAt({ steps, sources, states }: CausesNode, k: number, s: number): number {
  const perSource = steps.length / sources.length;
  return k * perSource + (s - 1) * (perSource / (states - 1));
}

/** Raises every axis of the first table in `values` as source `k` in state `s` does. */
function raise(node: CausesNode, k: number, s: number, values: Float64Array): void {
  const { steps, shape } = node;
  const { sizes, strides, size } = shape;
  let at = stepAt(node, k, s);
  for (let axis = 0; axis < sizes.length; axis++) {
    const states = sizes[axis] as number;
    const stride = strides[axis] as number;
    if (states === 2) {
      // A join never lowers a state.
      const stays = steps[at] as number;
      const rises = steps[at + 2] as number;
      const holds = steps[at + 3] as number;
      for (let start = 0; start < size; start += 2 * stride) {
        for (let i = start; i < start + stride; i++) {
          const low = values[i] as number;
          values[i] = stays * low;
          values[i + stride] = rises * low + holds * (values[i + stride] as number);
        }
      }
    } else {
      for (let start = 0; start < size; start += states * stride) {
        for (let i = start; i < start + stride; i++) {
          // From the top, as what lies below is still needed.
          for (let to = states - 1; to >= 0; to--) {
            let sum = 0;
            for (let from = 0; from <= to; from++) {
              sum += (steps[at + to * states + from] as number) * (values[i + from * stride] as number);
            }
            values[i + to * stride] = sum;
          }
        }
      }
    }
    at += states * states;
  }
}

/** Transpose of `raise`. */
function raiseBackward(node: CausesNode, k: number, s: number, values: Float64Array): void {
  const { steps, shape } = node;
  const { sizes, strides, size } = shape;
  let at = stepAt(node, k, s);
  for (let axis = 0; axis < sizes.length; axis++) {
    const states = sizes[axis] as number;
    const stride = strides[axis] as number;
    for (let start = 0; start < size; start += states * stride) {
      for (let i = start; i < start + stride; i++) {
        for (let from = 0; from < states; from++) {
          let sum = 0;
          for (let to = from; to < states; to++) {
            sum += (steps[at + to * states + from] as number) * (values[i + to * stride] as number);
          }
          values[i + from * stride] = sum;
        }
      }
    }
    at += states * states;
  }
}
