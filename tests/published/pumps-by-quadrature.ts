import type { CountedRate } from '../../src-core/statistics/rate-comparison.ts';
import { logLikelihoodOf, updatedRate } from '../../src-core/statistics/gamma-poisson.ts';

/**
 * Moments of rates that are gamma distributed, with shape ~ Exponential(1) and rate ~ Gamma(0.1, 1) as in the BUGS example,
 * on a grid in the logarithms of both.
 */
export function pumpsByQuadrature(units: readonly CountedRate[]) {
  const [shapes, rates] = [grid(Math.log(0.02), Math.log(6), 240), grid(Math.log(0.003), Math.log(15), 320)];
  const sums = { weight: 0, shape: 0, shape2: 0, rate: 0, rate2: 0 };
  const first = units.map(() => 0);
  const second = units.map(() => 0);
  for (const shape of shapes) {
    for (const rate of rates) {
      const prior = -shape + (0.1 - 1) * Math.log(rate) - rate;
      // The grid is even in the logarithms: each cell is as wide as shape times rate. 32 keeps the numbers near 1.
      const weight = Math.exp(logLikelihoodOf(units, { shape, rate }) + prior + 32) * shape * rate;
      sums.weight += weight;
      sums.shape += weight * shape;
      sums.shape2 += weight * shape * shape;
      sums.rate += weight * rate;
      sums.rate2 += weight * rate * rate;
      units.forEach((unit, i) => {
        const own = updatedRate({ shape, rate }, unit);
        first[i] = (first[i] ?? 0) + (weight * own.shape) / own.rate;
        second[i] = (second[i] ?? 0) + (weight * own.shape * (own.shape + 1)) / own.rate ** 2;
      });
    }
  }
  const mean = (sum: number) => sum / sums.weight;
  const deviation = (one: number, two: number) => Math.sqrt(mean(two) - mean(one) ** 2);
  return {
    means: first.map(mean),
    deviations: first.map((one, i) => deviation(one, second[i] ?? NaN)),
    shape: mean(sums.shape),
    rate: mean(sums.rate),
    shapeSd: deviation(sums.shape, sums.shape2),
    rateSd: deviation(sums.rate, sums.rate2),
  };
}

function grid(from: number, to: number, cells: number): number[] {
  return Array.from({ length: cells }, (_, i) => Math.exp(from + ((i + 0.5) * (to - from)) / cells));
}
