import { z } from 'zod';
import { provenance } from './common-fields.ts';

const figureUpTo = (highest: number) =>
  z.strictObject({ value: z.number().gt(0).max(highest), ...provenance });

/** Beyond these a job file is remarked on. In one file only. */
export const jobLimitsSchema = z.strictObject({
  shortLayerS: figureUpTo(600),
  /** Layer height over bore. */
  highestShareOfBore: figureUpTo(1),
  retractionsPerMetre: figureUpTo(10_000),
});

export type JobLimits = z.infer<typeof jobLimitsSchema>;
