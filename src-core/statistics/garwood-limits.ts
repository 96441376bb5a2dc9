import { gammaQuantile } from './gamma-distribution.ts';

/**
 * Exact two-sided confidence limits of a Poisson mean after `count` events.
 *
 * Garwood F., Biometrika 28 (1936) 437-442: the low limit is the mean at which `count` or more has chance
 * (1 - confidence)/2, the high limit that at which `count` or fewer has; both are quantiles of gamma distributions.
 */
export function garwoodLimits(
  count: number,
  confidence = 0.95,
): { readonly low: number; readonly high: number } {
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(`confidence lies between 0 and 1, not ${confidence}`);
  const tail = (1 - confidence) / 2;
  return {
    low: count === 0 ? 0 : gammaQuantile({ shape: count, rate: 1 }, tail),
    high: gammaQuantile({ shape: count + 1, rate: 1 }, 1 - tail),
  };
}
