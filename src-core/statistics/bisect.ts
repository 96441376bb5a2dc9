/** Place between `from` and `to` at which `isReached` turns from false (at `from`) to true (at `to`), to 1e-14 relative. */
export function bisect(isReached: (at: number) => boolean, from: number, to: number): number {
  let low = from;
  let high = to;
  for (let step = 0; step < 200 && high - low > 1e-14 * Math.abs(high); step++) {
    const middle = (low + high) / 2;
    if (isReached(middle)) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
