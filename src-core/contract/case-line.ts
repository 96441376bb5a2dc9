import { z } from 'zod';
import { caseEventSchema } from './case-event.ts';
import { initialsSchema, photoHashSchema, recordIdSchema, timeSchema } from './common.ts';
import { printerInputSchema, spoolInputSchema } from './shop-records.ts';

const numbered = { seq: z.number().int().min(1), at: timeSchema, by: initialsSchema.optional() };

/** One line of an exported casebook: a whole case with the printer and spool it names. JSON Lines, UTF-8. */
export const caseLineSchema = z.strictObject({
  format: z.literal('beadwright-case/1'),
  caseId: recordIdSchema,
  printer: printerInputSchema.omit({ meter: true, revision: true, model: true }).required().nullable(),
  // What later versions added to a spool may be missing in a line of an earlier one.
  spool: spoolInputSchema
    .omit({ revision: true })
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
    .array(
      z.union([
        z.strictObject({ ...numbered, event: caseEventSchema }),
        // What could not be read where it was exported travels as it lay there.
        z.strictObject({ ...numbered, unreadable: z.string().max(100_000) }),
      ]),
    )
    .min(1)
    .max(20_000),
  /** Photos that the events name, whole: JPEG as base64. */
  photos: z
    .array(z.strictObject({ hash: photoHashSchema, base64: z.base64().max(2_100_000) }))
    .max(24)
    .optional(),
});
export type CaseLine = z.infer<typeof caseLineSchema>;
