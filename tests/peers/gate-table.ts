/** One parent of a leaky noisy-MAX gate: the child's level distribution from it alone. */
export interface GateParent {
  readonly id: string;
  readonly levels: readonly number[];
}

/**
 * The whole conditional table of a leaky noisy-MAX gate, as libraries without such gates need it. Row r holds the
 * child's distribution for the parents' states, bit k of r telling whether parent k is present.
 * P(child <= l) is the product of the parents' cumulative distributions and the leak's (Díez 1993).
 */
export function gateTable(leak: readonly number[], parents: readonly GateParent[]): number[][] {
  return Array.from({ length: 2 ** parents.length }, (_, row) => {
    const atMost = leak.map((__, level) =>
      parents.reduce(
        (product, parent, k) => ((row >> k) & 1 ? product * sumTo(parent.levels, level) : product),
        sumTo(leak, level),
      ),
    );
    return atMost.map((value, level) => Math.max(0, value - (atMost[level - 1] ?? 0)));
  });
}

function sumTo(values: readonly number[], last: number): number {
  return last === values.length - 1 ? 1 : values.slice(0, last + 1).reduce((sum, value) => sum + value, 0);
}
