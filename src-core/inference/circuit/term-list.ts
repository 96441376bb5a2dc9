import type { JoinStep } from './table-shape.ts';

/** Terms laid out at once: lists and sums of that many stay in the processor's nearest memory. */
export const MOST_INNER_TERMS = 768;

/** Which entries meet in each term, from the start of a block of each table. */
export interface TermList {
  readonly left: Int32Array;
  readonly out: Int32Array;
  /** Starts of the blocks that repeat the terms: one for each state of the axes that only the left table has. */
  readonly leftStarts: Int32Array;
  readonly outStarts: Int32Array;
}

/** Lists kept; more kinds than that are rare, and are made anew. */
const MOST_LISTS = 2000;
const lists = new Map<string, TermList>();

/** Terms of an axis for each term of those around it. */
export function termsOf({ pairs, count }: JoinStep): number {
  return pairs ? pairs.count : count;
}

/** The list of terms of these axes, the innermost ones of a join with nothing left out. */
export function termListOf(steps: readonly JoinStep[]): TermList {
  let key = '';
  for (const step of steps) key += kindOf(step);
  const known = lists.get(key);
  if (known) return known;
  if (lists.size >= MOST_LISTS) lists.clear();
  const made = makeTermList(steps);
  lists.set(key, made);
  return made;
}

function kindOf({ pairs, count, leftStride, rightStride }: JoinStep): string {
  if (pairs) return `${pairs.kind};`;
  return `${leftStride === 0 ? 'r' : rightStride === 0 ? 'l' : 'b'}${count};`;
}

function makeTermList(steps: readonly JoinStep[]): TermList {
  let left = [0];
  let out = [0];
  let leftStarts = [0];
  let outStarts = [0];
  for (const { pairs, count, leftStride, rightStride, outStride } of steps) {
    const states = Array.from({ length: pairs ? pairs.count : count }, (_, k) => k);
    const spread = (starts: number[], offsets: readonly number[]) =>
      starts.flatMap((start) => offsets.map((offset) => start + offset));
    const inLeft = states.map((k) => (pairs ? (pairs.left[k] ?? 0) : k) * leftStride);
    const inOut = states.map((k) => (pairs ? (pairs.joined[k] ?? 0) : k) * outStride);
    if (rightStride === 0) {
      leftStarts = spread(leftStarts, inLeft);
      outStarts = spread(outStarts, inOut);
    } else {
      left = spread(left, inLeft);
      out = spread(out, inOut);
    }
  }
  return {
    left: Int32Array.from(left),
    out: Int32Array.from(out),
    leftStarts: Int32Array.from(leftStarts),
    outStarts: Int32Array.from(outStarts),
  };
}
