import { joinInner, joinInnerBackward } from './inner-join.ts';
import type { JoinPlan } from './join-plan.ts';

/*
 * Joins of two tables, axis by axis from the outermost inwards. On an axis that both tables have, "the higher of the two" is
 * taken without a subtraction: left 0 with right 0 stays 0, left 0 with right 1 and left 1 with right (0 + 1) give 1. Each
 * such axis of two states makes three joins of what lies inside it; sums of right parts lie in the working space, and nothing
 * is kept from run to run. The innermost axes are done all at once (`inner-join.ts`). Indices come from the compiler and are
 * in range.
 */

/** out = left joined with right. `scratch` holds as many numbers as {@link joinSpace} says. */
export function joinTables(
  plan: JoinPlan,
  left: Float64Array,
  right: Float64Array,
  out: Float64Array,
  scratch: Float64Array,
): void {
  out.fill(0);
  forward(plan, 0, left, 0, right, 0, out, 0, scratch, 0);
}

/** Adjoints of both tables of a join from that of the joined one. `scratch` as for `joinTables`. */
export function joinTablesBackward(
  plan: JoinPlan,
  left: Float64Array,
  right: Float64Array,
  adjoint: Float64Array,
  leftAdjoint: Float64Array,
  rightAdjoint: Float64Array,
  scratch: Float64Array,
): void {
  leftAdjoint.fill(0);
  rightAdjoint.fill(0);
  backward(plan, 0, left, leftAdjoint, 0, right, 0, rightAdjoint, 0, adjoint, 0, scratch, 0);
}

/** Numbers of working space that a join needs: a sum of right parts and its adjoint for each outer axis that both tables have. */
export function joinSpace({ outer }: JoinPlan): number {
  return outer.reduce((sum, step) => (step.pairs ? sum + 2 * step.rightInside : sum), 0);
}

function forward(
  plan: JoinPlan,
  at: number,
  left: Float64Array,
  l: number,
  right: Float64Array,
  r: number,
  out: Float64Array,
  o: number,
  scratch: Float64Array,
  free: number,
): void {
  const step = plan.outer[at];
  if (!step) {
    joinInner(plan, left, l, right, r, out, o);
    return;
  }
  const { pairs, count, leftStride, rightStride, outStride, rightInside } = step;
  if (!pairs) {
    for (let k = 0; k < count; k++) {
      const toOut = o + k * outStride;
      forward(plan, at + 1, left, l + k * leftStride, right, r + k * rightStride, out, toOut, scratch, free);
    }
    return;
  }
  const { states, sums } = pairs;
  for (let p = 0; p < pairs.count; p++) {
    const toLeft = l + (pairs.left[p] as number) * leftStride;
    const toOut = o + (pairs.joined[p] as number) * outStride;
    const single = pairs.single[p] as number;
    if (single >= 0) {
      forward(plan, at + 1, left, toLeft, right, r + single * rightStride, out, toOut, scratch, free);
      continue;
    }
    gather(right, r, rightStride, rightInside, states, sums, p, scratch, free);
    forward(plan, at + 1, left, toLeft, scratch, free, out, toOut, scratch, free + 2 * rightInside);
  }
}

function backward(
  plan: JoinPlan,
  at: number,
  left: Float64Array,
  leftAdjoint: Float64Array,
  l: number,
  right: Float64Array,
  r: number,
  rightAdjoint: Float64Array,
  ra: number,
  adjoint: Float64Array,
  o: number,
  scratch: Float64Array,
  free: number,
): void {
  const step = plan.outer[at];
  if (!step) {
    joinInnerBackward(plan, left, leftAdjoint, l, right, r, rightAdjoint, ra, adjoint, o);
    return;
  }
  const { pairs, count, leftStride, rightStride, outStride, rightInside } = step;
  const inner = (
    toLeft: number,
    from: Float64Array,
    f: number,
    fromAdjoint: Float64Array,
    fa: number,
    toOut: number,
    space: number,
  ) =>
    backward(
      plan,
      at + 1,
      left,
      leftAdjoint,
      toLeft,
      from,
      f,
      fromAdjoint,
      fa,
      adjoint,
      toOut,
      scratch,
      space,
    );
  if (!pairs) {
    for (let k = 0; k < count; k++) {
      const y = k * rightStride;
      inner(l + k * leftStride, right, r + y, rightAdjoint, ra + y, o + k * outStride, free);
    }
    return;
  }
  const { states, sums } = pairs;
  for (let p = 0; p < pairs.count; p++) {
    const x = l + (pairs.left[p] as number) * leftStride;
    const toOut = o + (pairs.joined[p] as number) * outStride;
    const single = pairs.single[p] as number;
    if (single >= 0) {
      const y = single * rightStride;
      inner(x, right, r + y, rightAdjoint, ra + y, toOut, free);
      continue;
    }
    const sumAdjoint = free + rightInside;
    gather(right, r, rightStride, rightInside, states, sums, p, scratch, free);
    scratch.fill(0, sumAdjoint, sumAdjoint + rightInside);
    inner(x, scratch, free, scratch, sumAdjoint, toOut, free + 2 * rightInside);
    for (let state = 0; state < states; state++) {
      const factor = sums[p * states + state] as number;
      if (factor === 0) continue;
      const to = ra + state * rightStride;
      for (let b = 0; b < rightInside; b++)
        rightAdjoint[to + b] =
          (rightAdjoint[to + b] as number) + factor * (scratch[sumAdjoint + b] as number);
    }
  }
}

/** The weighed sum of the right parts of a pair, into the working space. */
function gather(
  right: Float64Array,
  r: number,
  rightStride: number,
  inside: number,
  states: number,
  sums: Float64Array,
  pair: number,
  scratch: Float64Array,
  free: number,
): void {
  for (let b = 0; b < inside; b++) scratch[free + b] = 0;
  for (let state = 0; state < states; state++) {
    const factor = sums[pair * states + state] as number;
    if (factor === 0) continue;
    const from = r + state * rightStride;
    for (let b = 0; b < inside; b++)
      scratch[free + b] = (scratch[free + b] as number) + factor * (right[from + b] as number);
  }
}
