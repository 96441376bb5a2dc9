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
