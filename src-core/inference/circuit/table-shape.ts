import type { Accumulator } from '../network/max-network.ts';

/**
 * Layout of a table: `axes` are variables, the last one with stride 1. Axes are ordered by elimination, the
 * first to be eliminated last, so that summing a variable out reads runs of neighbours.
 */
export interface TableShape {
  readonly axes: readonly number[];
  readonly sizes: readonly number[];
  readonly strides: readonly number[];
  readonly size: number;
}

export function tableShape(axes: readonly number[], sizes: readonly number[]): TableShape {
  const strides = new Array<number>(axes.length);
  let size = 1;
  for (let k = axes.length - 1; k >= 0; k--) {
    strides[k] = size;
    size *= sizes[k] ?? 1;
  }
  return { axes, sizes, strides, size };
}

/**
 * How two tables join along one auxiliary without a subtraction: for each pair (left state, joined state)
 * the sum of the right states that lead there. For two states: 0 with 0 gives 0, 0 with 1 gives 1, and 1 with
 * (0 + 1) gives 1. Positive terms only, so a tiny probability keeps its digits; the usual detour over cumulative
 * tables (zeta and Möbius transforms) would subtract.
 */
export interface JoinPairs {
  /** The same for all auxiliaries whose states join alike, whatever their scales. */
  readonly kind: string;
  readonly count: number;
  readonly states: number;
  readonly left: Int32Array;
  readonly joined: Int32Array;
  /** sums[pair * states + rightState] */
  readonly sums: Float64Array;
  /** The right state of a pair that has one only and counts in full; -1 otherwise. */
  readonly single: Int32Array;
}

/** `scale[k]` is what a stored entry of state k must be multiplied by to give the true weight. */
export function joinPairs(auxiliary: Accumulator, scale: Float64Array): JoinPairs {
  const { states, join } = auxiliary;
  const left: number[] = [];
  const joined: number[] = [];
  const sums: number[] = [];
  for (let i = 0; i < states; i++) {
    const rowOf = new Map<number, number>();
    for (let j = 0; j < states; j++) {
      const to = join[i * states + j] ?? 0;
      let row = rowOf.get(to);
      if (row === undefined) {
        row = left.length;
        rowOf.set(to, row);
        left.push(i);
        joined.push(to);
        for (let k = 0; k < states; k++) sums.push(0);
      }
      sums[row * states + j] = ((scale[i] ?? 1) * (scale[j] ?? 1)) / (scale[to] ?? 1);
    }
  }
  const single = left.map((_, pair) => {
    const own = sums.slice(pair * states, (pair + 1) * states);
    const only = own.findIndex((factor) => factor !== 0);
    return own[only] === 1 && own.every((factor, j) => j === only || factor === 0) ? only : -1;
  });
  return {
    kind: `${states}:${join.join()}`,
    count: left.length,
    states,
    left: Int32Array.from(left),
    joined: Int32Array.from(joined),
    sums: Float64Array.from(sums),
    single: Int32Array.from(single),
  };
}

/** One axis of a join, from the outermost inwards. A stride is 0 where the table lacks the axis. */
export interface JoinStep {
  readonly count: number;
  readonly leftStride: number;
  readonly rightStride: number;
  readonly outStride: number;
  /** Entries of the right table inside this axis. */
  readonly rightInside: number;
  /** For an auxiliary that both tables have; null where states multiply one by one. */
  readonly pairs: JoinPairs | null;
}

/** Union of two axis lists, both ordered by falling elimination position. */
export function unionAxes(a: readonly number[], b: readonly number[], position: Int32Array): number[] {
  const union: number[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    const x = a[i];
    const y = b[j];
    const px = x === undefined ? -1 : (position[x] ?? -1);
    const py = y === undefined ? -1 : (position[y] ?? -1);
    union.push((px >= py ? x : y) ?? -1);
    if (px >= py) i++;
    if (py >= px) j++;
  }
  return union;
}
