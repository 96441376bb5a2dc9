import { z } from 'zod';
import { caseEventSchema } from './case-event.ts';
import { recordIdSchema, timeSchema } from './common.ts';
import { printerInputSchema, spoolInputSchema } from './shop-records.ts';

/** One line of an exported casebook: a whole case with the printer and spool it names. JSON Lines, UTF-8. */
export const caseLineSchema = z.strictObject({
  format: z.literal('beadwright-case/1'),
  caseId: recordIdSchema,
  printer: printerInputSchema.omit({ meter: true }).required().nullable(),
  // What later versions added to a spool may be missing in a line of an earlier one.
  spool: spoolInputSchema
    .required({
      id: true,
      label: true,
      polymer: true,
      filler: true,
      fillerPercent: true,
      storage: true,
      openedAt: true,
      note: true,
      isRetired: true,
    })
    .nullable(),
  knowledgeVersion: z.string().max(64),
  engineVersion: z.string().max(64),
  events: z
    .array(z.strictObject({ seq: z.number().int().min(1), at: timeSchema, event: caseEventSchema }))
    .min(1)
    .max(5000),
});
export type CaseLine = z.infer<typeof caseLineSchema>;
