export interface Estimate {
  readonly mean: number;
  /** Half-width of the 95 % confidence interval, normal approximation. */
  readonly halfWidth: number;
}

/** Mean with its 95 % half-width. */
export function estimate(values: readonly number[]): Estimate {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance =
    values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, values.length - 1);
  return { mean, halfWidth: 1.96 * Math.sqrt(variance / values.length) };
}

interface Forecast {
  readonly probability: number;
  readonly isTrue: boolean;
}

/** Brier score of one case: mean squared difference of forecast and truth over all causes (Brier 1950). */
export function brierScore(forecasts: readonly Forecast[]): number {
  return (
    forecasts.reduce((sum, { probability, isTrue }) => sum + (probability - Number(isTrue)) ** 2, 0) /
    forecasts.length
  );
}

/** Logarithmic score of one case: mean of -ln of the probability given to what was so (Good 1952); smaller is better. */
export function logScore(forecasts: readonly Forecast[]): number {
  const least = 1e-12;
  return (
    forecasts.reduce(
      (sum, { probability, isTrue }) =>
        sum - Math.log(Math.max(least, isTrue ? probability : 1 - probability)),
      0,
    ) / forecasts.length
  );
}

/** Reliability: forecasts in bins, with the mean forecast and the share that came true. */
export function reliability(forecasts: readonly Forecast[], edges: readonly number[]) {
  return edges.slice(0, -1).map((from, index) => {
    const to = edges[index + 1] ?? 1;
    const inBin = forecasts.filter(
      ({ probability }) => probability >= from && (probability < to || to === 1),
    );
    const count = inBin.length;
    return {
      from,
      to,
      count,
      meanForecast: count === 0 ? 0 : inBin.reduce((sum, one) => sum + one.probability, 0) / count,
      shareTrue: count === 0 ? 0 : inBin.filter((one) => one.isTrue).length / count,
    };
  });
}
