/** How wet a spool is for a print, as values of the condition `spool-water`, driest first. */
export const SPOOL_VERDICTS = ['dry', 'near-limit', 'over-limit', 'far-over-limit'] as const;
export type SpoolVerdict = (typeof SPOOL_VERDICTS)[number];

/** Chances of being over the limit from which the next verdict holds. Our own steps. */
const STEPS = [0.15, 0.5, 0.85] as const;

/** The verdict on a chance (0 to 1) that the content is above the limit for printing. */
export function verdictOn(chanceOverLimit: number): SpoolVerdict {
  if (!(chanceOverLimit >= 0 && chanceOverLimit <= 1))
    throw new RangeError(`a chance runs from 0 to 1, not ${chanceOverLimit}`);
  return SPOOL_VERDICTS[STEPS.filter((step) => chanceOverLimit >= step).length] ?? 'far-over-limit';
}

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
  return Math.min(60, USUAL_FLOW * (nozzleMm / USUAL_BORE_MM) ** 2);
}
