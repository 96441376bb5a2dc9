import { bisect } from './bisect.ts';
import { poissonAtLeast, poissonAtMost } from './poisson.ts';

/**
 * Exact two-sided confidence limits of a Poisson mean after `count` events.
 *
 * Garwood F., Biometrika 28 (1936) 437-442: the low limit is the mean at which `count` or more has chance
 * (1 - confidence)/2, the high limit that at which `count` or fewer has.
 */
export function garwoodLimits(
  count: number,
  confidence = 0.95,
): { readonly low: number; readonly high: number } {
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(`confidence lies between 0 and 1, not ${confidence}`);
  const tail = (1 - confidence) / 2;
  const low = count === 0 ? 0 : bisect((mean) => poissonAtLeast(count, mean) >= tail, 0, count);
  const high = bisect(
    (mean) => poissonAtMost(count, mean) < tail,
    count,
    count + 12 * Math.sqrt(count + 1) + 20,
  );
  return { low, high };
}
