/** A probability (0 to 1, below 1) whose odds are multiplied by a positive factor. */
export function timesOdds(probability: number, factor: number): number {
  const odds = (probability / (1 - probability)) * factor;
  return odds / (1 + odds);
}
