import { z } from 'zod';
import { recordIdSchema } from './common.ts';
import { ENGLISH, LANGUAGE_TAG, TEMPERATURE_UNITS } from './display-choices.ts';
import { PAPER_SIZES, REPORT_TABLES } from './report-choices.ts';

const tableNames = [...new Set(Object.values(REPORT_TABLES).flatMap((tables) => Object.keys(tables)))];

/** What a report is about: one case, one month ("2026-11") of the shop's calendar, a printer's life, or how the guide did. */
export const reportSubjectSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('case'), caseId: recordIdSchema }),
  z.strictObject({ kind: z.literal('month'), month: z.string().regex(/^\d{4}-(0[1-9]|1[0-2])$/) }),
  z.strictObject({ kind: z.literal('printer'), printerId: recordIdSchema }),
  z.strictObject({ kind: z.literal('guide-use') }),
]);

/** As a document, or one of its tables. */
export const reportFormSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('document') }),
  z.strictObject({ kind: z.enum(['csv', 'json-lines']), table: z.enum(tableNames) }),
]);

/** Whose language and unit the document is in; a command's is in English. */
export const readerSchema = z
  .strictObject({ language: z.string().regex(LANGUAGE_TAG), temperatureUnit: z.enum(TEMPERATURE_UNITS) })
  .default({ language: ENGLISH, temperatureUnit: '°C' });

export const reportFileSchema = z.strictObject({
  fileName: z.string(),
  /** Media type. */
  type: z.string(),
  text: z.string(),
});

/** A report, or the screen that is shown, as PDF on a size of paper. */
export const savePdfSchema = z.strictObject({
  what: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('report'), about: reportSubjectSchema }),
    z.strictObject({ kind: z.literal('screen'), name: z.string().regex(/^[a-z0-9-]{1,40}$/) }),
  ]),
  paper: z.enum(PAPER_SIZES),
  reader: readerSchema,
});
/** Where it was saved; null where nobody wanted it any more. */
export const savedPdfSchema = z.strictObject({ file: z.string().nullable() });

export type ReportSubject = z.infer<typeof reportSubjectSchema>;
export type Reader = z.infer<typeof readerSchema>;
export type ReportForm = z.infer<typeof reportFormSchema>;
