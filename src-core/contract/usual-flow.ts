/** Flow of everyday use with a 0.4 mm nozzle, mm³/s. */
const USUAL_FLOW = 5;
const USUAL_BORE_MM = 0.4;

/**
 * Flow to expect from the bore, mm³/s: width and height of the bead grow with it, so at one speed flow goes with its
 * square (bead geometry; 0.42 × 0.2 mm and 0.84 × 0.4 mm differ by a factor of 4). Common practice for the starting point.
 */
export function usualFlowMm3PerS(nozzleMm: number): number {
  if (!(nozzleMm >= 0.1 && nozzleMm <= 2))
    throw new RangeError(`a nozzle is 0.1 to 2 mm wide, not ${nozzleMm}`);
  return Math.min(60, Number((USUAL_FLOW * (nozzleMm / USUAL_BORE_MM) ** 2).toPrecision(3)));
}
