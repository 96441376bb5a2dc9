import { LOST_IN_ROUNDING } from './binomial.ts';
import { logChoose } from './log-factorial.ts';

/**
 * Chance that of `drawn` out of `all`, of which `marked` bear a mark, `count` or more bear it: Fisher's exact test of a
 * two-by-two table, upper tail (Fisher, J. R. Statist. Soc. 98, 1935, 39-54). Whole numbers; throws RangeError where more are
 * drawn or marked than there are.
 */
export function hypergeometricAtLeast(count: number, drawn: number, marked: number, all: number): number {
  if (![count, drawn, marked, all].every((one) => Number.isInteger(one) && one >= 0))
    throw new RangeError(`counts are whole numbers from 0, not ${count}, ${drawn}, ${marked}, ${all}`);
  if (drawn > all || marked > all)
    throw new RangeError(`of ${all}, neither ${drawn} can be drawn nor ${marked} marked`);
  if (count <= Math.max(0, drawn + marked - all)) return 1;
  const whole = logChoose(all, drawn);
  const mode = ((drawn + 1) * (marked + 1)) / (all + 2);
  let sum = 0;
  for (let k = count; k <= Math.min(drawn, marked); k++) {
    const term = Math.exp(logChoose(marked, k) + logChoose(all - marked, drawn - k) - whole);
    sum += term;
    if (k > mode && term < sum * LOST_IN_ROUNDING) break;
  }
  return Math.min(1, sum);
}
