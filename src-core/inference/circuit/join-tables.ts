import type { JoinStep } from './table-shape.ts';

/*
 * Joins of two tables, axis by axis from the outermost inwards. On an axis that both tables have, "the higher of the two" is
 * taken without a subtraction: left 0 with right 0 stays 0, left 0 with right 1 and left 1 with right (0 + 1) give 1. Each
 * such axis of two states makes three joins of what lies inside it; sums of right parts lie in the working space, and nothing
 * is kept from run to run. Indices come from the compiler and are in range.
 */

/** out = left joined with right. `scratch` holds as many numbers as {@link joinSpace} says. */
export function joinTables(
  steps: readonly JoinStep[],
  left: Float64Array,
  right: Float64Array,
  out: Float64Array,
  scratch: Float64Array,
): void {
  out.fill(0);
  forward(steps, 0, left, 0, right, 0, out, 0, scratch, 0);
}

/** Adjoints of both tables of a join from that of the joined one. `scratch` as for `joinTables`. */
export function joinTablesBackward(
  steps: readonly JoinStep[],
  left: Float64Array,
  right: Float64Array,
  adjoint: Float64Array,
  leftAdjoint: Float64Array,
  rightAdjoint: Float64Array,
  scratch: Float64Array,
): void {
  leftAdjoint.fill(0);
  rightAdjoint.fill(0);
  backward(steps, 0, left, leftAdjoint, 0, right, 0, rightAdjoint, 0, adjoint, 0, scratch, 0);
}

/** Numbers of working space that a join needs: a sum of right parts and its adjoint for each axis that both tables have. */
export function joinSpace(steps: readonly JoinStep[]): number {
  return steps.reduce((sum, step) => (step.pairs ? sum + 2 * step.rightInside : sum), 0);
}

function forward(
  steps: readonly JoinStep[],
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
  const step = steps[at];
  if (!step) {
    out[o] = (out[o] as number) + (left[l] as number) * (right[r] as number);
    return;
  }
  const { pairs, count, leftStride, rightStride, outStride, rightInside } = step;
  const isLast = at === steps.length - 1;
  if (!pairs) {
    for (let k = 0; k < count; k++) {
      const toLeft = l + k * leftStride;
      const toRight = r + k * rightStride;
      const toOut = o + k * outStride;
      if (isLast) out[toOut] = (out[toOut] as number) + (left[toLeft] as number) * (right[toRight] as number);
      else forward(steps, at + 1, left, toLeft, right, toRight, out, toOut, scratch, free);
    }
    return;
  }
  const { states, sums } = pairs;
  const inner = steps[at + 1];
  if (states === 2 && inner?.pairs?.states === 2 && at === steps.length - 2) {
    forwardTwo(step, inner, left, l, right, r, out, o);
    return;
  }
  if (states === 2 && isLast) {
    const none = right[r] as number;
    const some = right[r + rightStride] as number;
    const any = none + (sums[5] as number) * some;
    out[o] = (out[o] as number) + (left[l] as number) * none;
    out[o + outStride] =
      (out[o + outStride] as number) + (left[l] as number) * some + (left[l + leftStride] as number) * any;
    return;
  }
  if (states === 2 && isLast) {
    const none = right[r] as number;
    const some = right[r + rightStride] as number;
    const low = left[l] as number;
    const any = none + (sums[5] as number) * some;
    out[o] = (out[o] as number) + low * none;
    out[o + outStride] = (out[o + outStride] as number) + low * some + (left[l + leftStride] as number) * any;
    return;
  }
  if (isLast) {
    for (let p = 0; p < pairs.count; p++) {
      const single = pairs.single[p] as number;
      let any = 0;
      if (single >= 0) any = right[r + single * rightStride] as number;
      else
        for (let j = 0; j < states; j++)
          any += (sums[p * states + j] as number) * (right[r + j * rightStride] as number);
      const toOut = o + (pairs.joined[p] as number) * outStride;
      out[toOut] =
        (out[toOut] as number) + (left[l + (pairs.left[p] as number) * leftStride] as number) * any;
    }
    return;
  }
  for (let p = 0; p < pairs.count; p++) {
    const toLeft = l + (pairs.left[p] as number) * leftStride;
    const toOut = o + (pairs.joined[p] as number) * outStride;
    const single = pairs.single[p] as number;
    if (single >= 0) {
      forward(steps, at + 1, left, toLeft, right, r + single * rightStride, out, toOut, scratch, free);
      continue;
    }
    gather(right, r, rightStride, rightInside, states, sums, p, scratch, free);
    forward(steps, at + 1, left, toLeft, scratch, free, out, toOut, scratch, free + 2 * rightInside);
  }
}

/** The last two axes, of two states each, written out. */
function forwardTwo(
  { leftStride: leftOuter, rightStride: rightOuter, outStride: outOuter, pairs: outer }: JoinStep,
  { leftStride, rightStride, outStride, pairs }: JoinStep,
  left: Float64Array,
  l: number,
  right: Float64Array,
  r: number,
  out: Float64Array,
  o: number,
): void {
  const scaleOuter = outer?.sums[5] as number;
  const scale = pairs?.sums[5] as number;
  const r00 = right[r] as number;
  const r01 = right[r + rightStride] as number;
  const r10 = right[r + rightOuter] as number;
  const r11 = right[r + rightOuter + rightStride] as number;
  const any0 = r00 + scaleOuter * r10;
  const any1 = r01 + scaleOuter * r11;
  const l00 = left[l] as number;
  const l01 = left[l + leftStride] as number;
  const l10 = left[l + leftOuter] as number;
  const l11 = left[l + leftOuter + leftStride] as number;
  const top = o + outOuter;
  out[o] = (out[o] as number) + l00 * r00;
  out[o + outStride] = (out[o + outStride] as number) + l00 * r01 + l01 * (r00 + scale * r01);
  out[top] = (out[top] as number) + l00 * r10 + l10 * any0;
  out[top + outStride] =
    (out[top + outStride] as number) +
    l00 * r11 +
    l01 * (r10 + scale * r11) +
    l10 * any1 +
    l11 * (any0 + scale * any1);
}

function backward(
  steps: readonly JoinStep[],
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
  const step = steps[at];
  if (!step) {
    const slope = adjoint[o] as number;
    leftAdjoint[l] = (leftAdjoint[l] as number) + slope * (right[r] as number);
    rightAdjoint[ra] = (rightAdjoint[ra] as number) + slope * (left[l] as number);
    return;
  }
  const { pairs, count, leftStride, rightStride, outStride, rightInside } = step;
  const isLast = at === steps.length - 1;
  if (!pairs) {
    for (let k = 0; k < count; k++) {
      const x = l + k * leftStride;
      const y = k * rightStride;
      const toOut = o + k * outStride;
      if (isLast) {
        const slope = adjoint[toOut] as number;
        leftAdjoint[x] = (leftAdjoint[x] as number) + slope * (right[r + y] as number);
        rightAdjoint[ra + y] = (rightAdjoint[ra + y] as number) + slope * (left[x] as number);
      } else {
        backward(
          steps,
          at + 1,
          left,
          leftAdjoint,
          x,
          right,
          r + y,
          rightAdjoint,
          ra + y,
          adjoint,
          toOut,
          scratch,
          free,
        );
      }
    }
    return;
  }
  const { states, sums } = pairs;
  const inner = steps[at + 1];
  if (states === 2 && inner?.pairs?.states === 2 && at === steps.length - 2) {
    backwardTwo(step, inner, left, leftAdjoint, l, right, r, rightAdjoint, ra, adjoint, o);
    return;
  }
  if (states === 2 && isLast) {
    const scale = sums[5] as number;
    const none = right[r] as number;
    const some = right[r + rightStride] as number;
    const low = left[l] as number;
    const high = left[l + leftStride] as number;
    const slopeNone = adjoint[o] as number;
    const slopeSome = adjoint[o + outStride] as number;
    leftAdjoint[l] = (leftAdjoint[l] as number) + slopeNone * none + slopeSome * some;
    leftAdjoint[l + leftStride] = (leftAdjoint[l + leftStride] as number) + slopeSome * (none + scale * some);
    rightAdjoint[ra] = (rightAdjoint[ra] as number) + slopeNone * low + slopeSome * high;
    rightAdjoint[ra + rightStride] =
      (rightAdjoint[ra + rightStride] as number) + slopeSome * (low + scale * high);
    return;
  }
  if (states === 2 && isLast) {
    const scale = sums[5] as number;
    const none = right[r] as number;
    const some = right[r + rightStride] as number;
    const low = left[l] as number;
    const high = left[l + leftStride] as number;
    const slopeNone = adjoint[o] as number;
    const slopeSome = adjoint[o + outStride] as number;
    leftAdjoint[l] = (leftAdjoint[l] as number) + slopeNone * none + slopeSome * some;
    leftAdjoint[l + leftStride] = (leftAdjoint[l + leftStride] as number) + slopeSome * (none + scale * some);
    rightAdjoint[ra] = (rightAdjoint[ra] as number) + slopeNone * low + slopeSome * high;
    rightAdjoint[ra + rightStride] =
      (rightAdjoint[ra + rightStride] as number) + slopeSome * (low + scale * high);
    return;
  }
  if (isLast) {
    for (let p = 0; p < pairs.count; p++) {
      const single = pairs.single[p] as number;
      const x = l + (pairs.left[p] as number) * leftStride;
      const slope = adjoint[o + (pairs.joined[p] as number) * outStride] as number;
      const slopeOfRight = slope * (left[x] as number);
      if (single >= 0) {
        const y = single * rightStride;
        leftAdjoint[x] = (leftAdjoint[x] as number) + slope * (right[r + y] as number);
        rightAdjoint[ra + y] = (rightAdjoint[ra + y] as number) + slopeOfRight;
        continue;
      }
      let any = 0;
      for (let j = 0; j < states; j++) {
        const factor = sums[p * states + j] as number;
        const y = j * rightStride;
        any += factor * (right[r + y] as number);
        rightAdjoint[ra + y] = (rightAdjoint[ra + y] as number) + slopeOfRight * factor;
      }
      leftAdjoint[x] = (leftAdjoint[x] as number) + slope * any;
    }
    return;
  }
  for (let p = 0; p < pairs.count; p++) {
    const x = l + (pairs.left[p] as number) * leftStride;
    const toOut = o + (pairs.joined[p] as number) * outStride;
    const single = pairs.single[p] as number;
    if (single >= 0) {
      const y = single * rightStride;
      backward(
        steps,
        at + 1,
        left,
        leftAdjoint,
        x,
        right,
        r + y,
        rightAdjoint,
        ra + y,
        adjoint,
        toOut,
        scratch,
        free,
      );
      continue;
    }
    const sumAdjoint = free + rightInside;
    gather(right, r, rightStride, rightInside, states, sums, p, scratch, free);
    scratch.fill(0, sumAdjoint, sumAdjoint + rightInside);
    backward(
      steps,
      at + 1,
      left,
      leftAdjoint,
      x,
      scratch,
      free,
      scratch,
      sumAdjoint,
      adjoint,
      toOut,
      scratch,
      free + 2 * rightInside,
    );
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

/** Transpose of `forwardTwo`. */
function backwardTwo(
  { leftStride: leftOuter, rightStride: rightOuter, outStride: outOuter, pairs: outer }: JoinStep,
  { leftStride, rightStride, outStride, pairs }: JoinStep,
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
  const scaleOuter = outer?.sums[5] as number;
  const scale = pairs?.sums[5] as number;
  const r00 = right[r] as number;
  const r01 = right[r + rightStride] as number;
  const r10 = right[r + rightOuter] as number;
  const r11 = right[r + rightOuter + rightStride] as number;
  const any0 = r00 + scaleOuter * r10;
  const any1 = r01 + scaleOuter * r11;
  const l00 = left[l] as number;
  const l01 = left[l + leftStride] as number;
  const l10 = left[l + leftOuter] as number;
  const l11 = left[l + leftOuter + leftStride] as number;
  const top = o + outOuter;
  const a00 = adjoint[o] as number;
  const a01 = adjoint[o + outStride] as number;
  const a10 = adjoint[top] as number;
  const a11 = adjoint[top + outStride] as number;
  const x = l + leftOuter;
  leftAdjoint[l] = (leftAdjoint[l] as number) + a00 * r00 + a01 * r01 + a10 * r10 + a11 * r11;
  leftAdjoint[l + leftStride] =
    (leftAdjoint[l + leftStride] as number) + a01 * (r00 + scale * r01) + a11 * (r10 + scale * r11);
  leftAdjoint[x] = (leftAdjoint[x] as number) + a10 * any0 + a11 * any1;
  leftAdjoint[x + leftStride] = (leftAdjoint[x + leftStride] as number) + a11 * (any0 + scale * any1);
  const ofAny0 = a10 * l10 + a11 * l11;
  const ofAny1 = a11 * (l10 + scale * l11);
  const low = l00 + scale * l01;
  const y = ra + rightOuter;
  rightAdjoint[ra] = (rightAdjoint[ra] as number) + a00 * l00 + a01 * l01 + ofAny0;
  rightAdjoint[ra + rightStride] = (rightAdjoint[ra + rightStride] as number) + a01 * low + ofAny1;
  rightAdjoint[y] = (rightAdjoint[y] as number) + a10 * l00 + a11 * l01 + scaleOuter * ofAny0;
  rightAdjoint[y + rightStride] = (rightAdjoint[y + rightStride] as number) + a11 * low + scaleOuter * ofAny1;
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
