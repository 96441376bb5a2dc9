import type { Accumulator } from '../network/max-network.ts';
import type { Arena } from './arena.ts';

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
  readonly count: number;
  readonly states: number;
  readonly left: Int32Array;
  readonly joined: Int32Array;
  /** sums[pair * states + rightState] */
  readonly sums: Float64Array;
  /** Same key, same pairs. */
  readonly key: string;
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
  return {
    count: left.length,
    states,
    left: Int32Array.from(left),
    joined: Int32Array.from(joined),
    sums: Float64Array.from(sums),
    key: `${states}:${left.join('')}:${joined.join('')}`,
  };
}

/** Index lists of a join: out[out[t]] += left[left[t]] * expandedRight[right[t]]. */
export interface JoinPlan {
  readonly shape: TableShape;
  readonly left: Int32Array;
  readonly right: Int32Array;
  readonly out: Int32Array;
  /** Shared auxiliary axes of the right table (position there), which are expanded to pairs. */
  readonly expanded: readonly { readonly position: number; readonly pairs: JoinPairs }[];
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

/**
 * Plans the join of two tables. `pairsOf` gives the pairs of an auxiliary and null for a source, whose
 * states multiply one by one. `lists` keeps index lists of equal shapes.
 */
export function joinPlan(
  left: TableShape,
  right: TableShape,
  position: Int32Array,
  pairsOf: (variable: number) => JoinPairs | null,
  sizeOf: (variable: number) => number,
  lists: Map<string, Pick<JoinPlan, 'left' | 'right' | 'out'>>,
  arena: Arena,
): JoinPlan {
  const axes = unionAxes(left.axes, right.axes, position);
  const shape = tableShape(axes, axes.map(sizeOf));
  const expanded: { position: number; pairs: JoinPairs }[] = [];
  const expandedSizes = [...right.sizes];
  right.axes.forEach((variable, at) => {
    const pairs = pairsOf(variable);
    if (!pairs || !left.axes.includes(variable)) return;
    expanded.push({ position: at, pairs });
    expandedSizes[at] = pairs.count;
  });
  let key = '';
  let terms = 1;
  const steps = axes.map((variable, k) => {
    const l = left.axes.indexOf(variable);
    const r = right.axes.indexOf(variable);
    const pairs = l >= 0 && r >= 0 ? pairsOf(variable) : null;
    const count = pairs ? pairs.count : (shape.sizes[k] ?? 1);
    terms *= count;
    key += pairs ? `b${pairs.key};` : `${l < 0 ? 'r' : r < 0 ? 'l' : 's'}${count};`;
    return { l, r, k, pairs, count };
  });
  const known = lists.get(key);
  if (known) return { shape, expanded, ...known };

  const rightStrides = tableShape(right.axes, expandedSizes).strides;
  const lefts = arena.ints(terms);
  const rights = arena.ints(terms);
  const outs = arena.ints(terms);
  let filled = 1;
  for (const { l, r, k, pairs, count } of steps) {
    const leftStride = l < 0 ? 0 : (left.strides[l] ?? 0);
    const rightStride = r < 0 ? 0 : (rightStrides[r] ?? 0);
    const outStride = shape.strides[k] ?? 0;
    // From the back, so that a prefix is read before it is overwritten.
    for (let i = filled - 1; i >= 0; i--) {
      const baseLeft = lefts[i] as number;
      const baseRight = rights[i] as number;
      const baseOut = outs[i] as number;
      for (let step = count - 1; step >= 0; step--) {
        const at = i * count + step;
        lefts[at] = baseLeft + leftStride * (pairs ? (pairs.left[step] as number) : step);
        rights[at] = baseRight + rightStride * step;
        outs[at] = baseOut + outStride * (pairs ? (pairs.joined[step] as number) : step);
      }
    }
    filled *= count;
  }
  const made = { left: lefts, right: rights, out: outs };
  lists.set(key, made);
  return { shape, expanded, ...made };
}
