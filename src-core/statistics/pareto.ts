/** Amounts in falling order, each with the share (0–1) of it and all before; `count` for a share that is to be reached. */
export function fallingShares(amounts: readonly number[]): {
  readonly order: readonly number[];
  readonly cumulative: readonly number[];
  countFor(share: number): number;
} {
  const order = amounts.map((_, i) => i).sort((a, b) => (amounts[b] ?? 0) - (amounts[a] ?? 0));
  const total = amounts.reduce((sum, one) => sum + one, 0);
  let soFar = 0;
  const cumulative = order.map((index) => (soFar += amounts[index] ?? 0) / (total || 1));
  return {
    order,
    cumulative,
    // Sums of shares come a hair short of what they should be.
    countFor: (share) => cumulative.findIndex((one) => one >= share - 1e-12) + 1,
  };
}
