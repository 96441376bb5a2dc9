import { z } from 'zod';
import { recordIdSchema } from './common.ts';
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
});
/** Where it was saved; null where nobody wanted it any more. */
export const savedPdfSchema = z.strictObject({ file: z.string().nullable() });

export type ReportSubject = z.infer<typeof reportSubjectSchema>;
export type ReportForm = z.infer<typeof reportFormSchema>;
