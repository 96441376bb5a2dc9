import { logGamma } from './log-gamma.ts';

/** What is known of the shares of several kinds after counts of each, from a prior in equivalent counts (all above 0). */
export function updatedShares(prior: readonly number[], counts: readonly number[]) {
  const posterior = prior.map((one, index) => one + (counts[index] ?? 0));
  const total = posterior.reduce((sum, one) => sum + one, 0);
  const mean = posterior.map((one) => one / total);
  return {
    posterior,
    mean,
    sd: mean.map((one) => Math.sqrt((one * (1 - one)) / (total + 1))),
    /** ln of the chance of these counts in one particular order. */
    logEvidence: logOrder(prior, counts),
    /** Chance that the next so many are of these kinds, in one particular order. */
    chanceOfNext: (next: readonly number[]) => Math.exp(logOrder(posterior, next)),
  };
}

function logOrder(prior: readonly number[], counts: readonly number[]): number {
  const sum = (values: readonly number[]) => values.reduce((total, one) => total + one, 0);
  return prior.reduce(
    (total, one, index) => total + logGamma(one + (counts[index] ?? 0)) - logGamma(one),
    logGamma(sum(prior)) - logGamma(sum(prior) + sum(counts)),
  );
}
