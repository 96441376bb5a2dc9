import { z } from 'zod';
import { recordIdSchema, timeSchema } from './common.ts';

/** A case that was thrown away, while it can be had back. */
export const binnedCaseSchema = z.strictObject({
  caseId: recordIdSchema,
  number: z.number().int(),
  label: z.string(),
  binnedAt: timeSchema,
  /** When it is deleted for good. */
  goesAt: timeSchema,
});
export const binSchema = z.strictObject({ cases: z.array(binnedCaseSchema) });

export type BinnedCase = z.infer<typeof binnedCaseSchema>;
