import type { JoinPairs, JoinStep, TableShape } from './table-shape.ts';
import { MOST_INNER_TERMS, termListOf, termsOf, type TermList } from './term-list.ts';

/** A join: outer axes one by one, the inner ones all at once. */
export interface JoinPlan {
  readonly outer: readonly JoinStep[];
  readonly inner: readonly JoinStep[];
  readonly list: TermList;
}

/**
 * How two tables join to one of the shape given. `pairsOf` gives the pairs of an auxiliary and null for a source, whose states
 * multiply one by one.
 */
export function joinPlan(
  left: TableShape,
  right: TableShape,
  shape: TableShape,
  pairsOf: (variable: number) => JoinPairs | null,
): JoinPlan {
  let rightInside = right.size;
  const steps = shape.axes.map((variable, k): JoinStep => {
    const l = left.axes.indexOf(variable);
    const r = right.axes.indexOf(variable);
    if (r >= 0) rightInside = right.strides[r] ?? 1;
    return {
      count: shape.sizes[k] ?? 1,
      leftStride: l < 0 ? 0 : (left.strides[l] ?? 0),
      rightStride: r < 0 ? 0 : (right.strides[r] ?? 0),
      outStride: shape.strides[k] ?? 0,
      rightInside,
      pairs: l >= 0 && r >= 0 ? pairsOf(variable) : null,
    };
  });
  let first = steps.length;
  for (let terms = 1; first > 0; first--) {
    terms *= termsOf(steps[first - 1] as JoinStep);
    if (terms > MOST_INNER_TERMS) break;
  }
  const inner = steps.slice(first);
  return { outer: steps.slice(0, first), inner, list: termListOf(inner) };
}
