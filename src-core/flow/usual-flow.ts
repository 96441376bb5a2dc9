import type { Melting } from '../knowledge/melting-schema.ts';

/**
 * Flow to expect from the bore, mm³/s; of the guide's usual nozzle where nobody names one. Width and height of the bead grow
 * with the bore, so at one speed flow goes with its square (bead geometry; 0.42 × 0.2 mm and 0.84 × 0.4 mm differ by a factor
 * of 4).
 *
 * Throws a `RangeError` for a nozzle of less than 0.1 or more than 2 mm.
 */
export function usualFlowMm3PerS({ usualFlow }: Melting, nozzleMm = usualFlow.nozzleMm): number {
  if (!(nozzleMm >= 0.1 && nozzleMm <= 2))
    throw new RangeError(`a nozzle is 0.1 to 2 mm wide, not ${nozzleMm}`);
  const flow = usualFlow.mm3PerS * (nozzleMm / usualFlow.nozzleMm) ** 2;
  return Math.min(usualFlow.highestMm3PerS, Number(flow.toPrecision(3)));
}
