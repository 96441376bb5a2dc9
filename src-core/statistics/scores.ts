/** A forecast of something that does or does not happen, with its chance (0–1), and whether it happened. */
export interface Forecast {
  readonly chance: number;
  readonly happened: boolean;
}

/** Mean squared distance of the chances from what happened, 0 best and 1 worst: half of what Brier (1950) sums over both classes. */
export function brierScore(forecasts: readonly Forecast[]): number {
  return mean(forecasts.map(({ chance, happened }) => (chance - Number(happened)) ** 2));
}

/** Mean of -ln of the chance given to what happened (nats), 0 best. */
export function logScore(forecasts: readonly Forecast[]): number {
  return mean(forecasts.map(({ chance, happened }) => -Math.log(happened ? chance : 1 - chance)));
}

/**
 * Scores of one forecast over classes in order, of which the one at index `happened` came: Brier's sum over the classes
 * (Monthly Weather Review 78, 1950, 1-3), the log score (nats), and the ranked probability score (Epstein 1969).
 */
export function classScores(chances: readonly number[], happened: number) {
  let soFar = 0;
  let ranked = 0;
  chances.forEach((chance, index) => {
    soFar += chance;
    ranked += (soFar - Number(index >= happened)) ** 2;
  });
  return {
    brier: chances.reduce((sum, chance, index) => sum + (chance - Number(index === happened)) ** 2, 0),
    log: -Math.log(chances[happened] ?? 0),
    ranked,
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}
