import type { JoinPlan } from './join-plan.ts';
import type { JoinStep } from './table-shape.ts';
import { MOST_INNER_TERMS } from './term-list.ts';

/*
 * The inner axes of a join, all at once. The right table is laid out with one number for each pair of states and axis (the
 * weighed sum of the right states of that pair), one axis after the other; then every term is one product of a left entry
 * and such a number. Which entries meet in a term depends on the kinds of the axes alone, so these lists are kept from
 * circuit to circuit. Axes that only the left table has repeat the same terms. Indices come from the compiler and are in range.
 */

// Working space within one call; nothing is kept in it.
let laid = new Float64Array(MOST_INNER_TERMS);
let other = new Float64Array(MOST_INNER_TERMS);
const slopes = new Float64Array(MOST_INNER_TERMS);

/** Adds the join of a block of each table to a block of the joined one. */
export function joinInner(
  { inner, list }: JoinPlan,
  left: Float64Array,
  l: number,
  right: Float64Array,
  r: number,
  out: Float64Array,
  o: number,
): void {
  layOut(inner, right, r);
  const sums = laid;
  const { left: inLeft, out: inOut, leftStarts, outStarts } = list;
  for (let block = 0; block < leftStarts.length; block++) {
    const fromLeft = l + (leftStarts[block] as number);
    const fromOut = o + (outStarts[block] as number);
    for (let t = 0; t < inLeft.length; t++) {
      const to = fromOut + (inOut[t] as number);
      out[to] =
        (out[to] as number) + (left[fromLeft + (inLeft[t] as number)] as number) * (sums[t] as number);
    }
  }
}

/** Adds the adjoints of both blocks, from that of the joined one. */
export function joinInnerBackward(
  { inner, list }: JoinPlan,
  left: Float64Array,
  leftAdjoint: Float64Array,
  l: number,
  right: Float64Array,
  r: number,
  rightAdjoint: Float64Array,
  ra: number,
  adjoint: Float64Array,
  o: number,
): void {
  layOut(inner, right, r);
  const sums = laid;
  const { left: inLeft, out: inOut, leftStarts, outStarts } = list;
  const terms = inLeft.length;
  for (let t = 0; t < terms; t++) slopes[t] = 0;
  for (let block = 0; block < leftStarts.length; block++) {
    const fromLeft = l + (leftStarts[block] as number);
    const fromOut = o + (outStarts[block] as number);
    for (let t = 0; t < terms; t++) {
      const slope = adjoint[fromOut + (inOut[t] as number)] as number;
      const at = fromLeft + (inLeft[t] as number);
      leftAdjoint[at] = (leftAdjoint[at] as number) + slope * (sums[t] as number);
      slopes[t] = (slopes[t] as number) + slope * (left[at] as number);
    }
  }
  gatherBack(inner, terms, rightAdjoint, ra);
}

/** Lays the right block out in `laid`: its sums for each pair of states, axis by axis from the outermost. */
function layOut(inner: readonly JoinStep[], right: Float64Array, r: number): void {
  let from = right;
  let start = r;
  let outside = 1;
  let inside = 1;
  for (const { pairs, count, rightStride, rightInside } of inner) {
    if (rightStride === 0) continue;
    inside = rightInside;
    if (!pairs) {
      outside *= count;
      continue;
    }
    const { states, sums, count: rows } = pairs;
    const to = other;
    let at = 0;
    if (states === 2) {
      const scale = sums[5] as number;
      if (inside === 1) {
        for (let low = start; low < start + 2 * outside; low += 2) {
          const none = from[low] as number;
          const some = from[low + 1] as number;
          to[at] = none;
          to[at + 1] = some;
          to[at + 2] = none + scale * some;
          at += 3;
        }
      } else
        for (let block = 0; block < outside; block++) {
          const low = start + block * 2 * inside;
          for (let b = 0; b < inside; b++) {
            const none = from[low + b] as number;
            const some = from[low + inside + b] as number;
            to[at + b] = none;
            to[at + inside + b] = some;
            to[at + 2 * inside + b] = none + scale * some;
          }
          at += 3 * inside;
        }
    } else if (states === 3) {
      for (let block = 0; block < outside; block++) {
        const low = start + block * 3 * inside;
        for (let b = 0; b < inside; b++) {
          const first = from[low + b] as number;
          const second = from[low + inside + b] as number;
          const third = from[low + 2 * inside + b] as number;
          for (let row = 0; row < rows; row++)
            to[at + row * inside + b] =
              (sums[3 * row] as number) * first +
              (sums[3 * row + 1] as number) * second +
              (sums[3 * row + 2] as number) * third;
        }
        at += rows * inside;
      }
    } else {
      for (let block = 0; block < outside; block++) {
        const low = start + block * states * inside;
        for (let row = 0; row < rows; row++) {
          const single = pairs.single[row] as number;
          if (single >= 0) {
            const only = low + single * inside;
            for (let b = 0; b < inside; b++) to[at + b] = from[only + b] as number;
          } else {
            for (let b = 0; b < inside; b++) {
              let sum = 0;
              for (let state = 0; state < states; state++)
                sum += (sums[row * states + state] as number) * (from[low + state * inside + b] as number);
              to[at + b] = sum;
            }
          }
          at += inside;
        }
      }
    }
    outside *= rows;
    other = laid;
    laid = to;
    from = to;
    start = 0;
  }
  if (from !== right) return;
  const size = outside * inside;
  for (let b = 0; b < size; b++) laid[b] = right[r + b] as number;
}

/** Transpose of `layOut`: adds what `slopes` say of the laid out numbers to the adjoint of the right block. */
function gatherBack(inner: readonly JoinStep[], terms: number, rightAdjoint: Float64Array, ra: number): void {
  let from = slopes;
  let size = terms;
  for (let k = inner.length - 1; k >= 0; k--) {
    const { pairs, rightStride, rightInside: inside } = inner[k] as JoinStep;
    if (!pairs || rightStride === 0) continue;
    const { states, sums, count: rows } = pairs;
    const outside = size / (rows * inside);
    const to = from === laid ? other : laid;
    for (let block = 0; block < outside; block++) {
      const low = block * rows * inside;
      const target = block * states * inside;
      if (states === 2) {
        const scale = sums[5] as number;
        for (let b = 0; b < inside; b++) {
          const any = from[low + 2 * inside + b] as number;
          to[target + b] = (from[low + b] as number) + any;
          to[target + inside + b] = (from[low + inside + b] as number) + scale * any;
        }
        continue;
      }
      for (let state = 0; state < states; state++) {
        const into = target + state * inside;
        for (let b = 0; b < inside; b++) to[into + b] = 0;
        for (let row = 0; row < rows; row++) {
          const factor = sums[row * states + state] as number;
          if (factor === 0) continue;
          for (let b = 0; b < inside; b++)
            to[into + b] = (to[into + b] as number) + factor * (from[low + row * inside + b] as number);
        }
      }
    }
    size = outside * states * inside;
    from = to;
  }
  for (let b = 0; b < size; b++)
    rightAdjoint[ra + b] = (rightAdjoint[ra + b] as number) + (from[b] as number);
}
