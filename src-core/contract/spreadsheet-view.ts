import { z } from 'zod';
import { idSchema, recordIdSchema, timeSchema } from './common.ts';
import { messageSchema } from './message.ts';
import { DATE_ORDERS, LOST_UNITS, SPREADSHEET_FIELDS } from './spreadsheet-choices.ts';

const cellText = z.string().trim().min(1).max(300);

/** Which column holds what, and what the shop's own words stand for. Kept for the next time. */
export const spreadsheetMappingSchema = z.strictObject({
  /** Name of the column in the first line, by field; fields without one are left out. */
  columns: z.partialRecord(z.enum(SPREADSHEET_FIELDS), cellText),
  dateOrder: z.enum(DATE_ORDERS).default('day-first'),
  lostUnit: z.enum(LOST_UNITS).default('minutes'),
  /** Words of a cell, lower case, to the guide's observation. */
  complaints: z.record(z.string().max(300), idSchema).default({}),
  /** The same for causes; null where the guide has none: then it is named by hand. */
  causes: z.record(z.string().max(300), idSchema.nullable()).default({}),
});

export const spreadsheetFileSchema = z.strictObject({
  fileName: z.string().trim().min(1).max(200),
  text: z
    .string()
    .min(1)
    .max(16 * 1024 * 1024),
});

export const spreadsheetLookSchema = z.strictObject({
  columns: z.array(
    z.strictObject({
      name: z.string(),
      /** From 1, where the column has no name of its own and is called by its place. */
      place: z.number().int().nullable(),
      samples: z.array(z.string()),
    }),
  ),
  rowCount: z.number().int(),
  /** As it was used last where that fits this file, a guess from the columns' names otherwise. */
  mapping: spreadsheetMappingSchema,
  isRemembered: z.boolean(),
});

export const unknownWordSchema = z.strictObject({
  field: z.enum(['complaint', 'cause']),
  text: z.string(),
  /** Rows that it stands in. */
  count: z.number().int(),
  suggestions: z.array(z.strictObject({ id: idSchema, label: z.string() })),
});

export const importSchema = z.strictObject({
  importId: recordIdSchema,
  at: timeSchema,
  fileName: z.string(),
  /** Cases that came in with it, and those of them that are still here. */
  count: z.number().int(),
  left: z.number().int(),
});

export const spreadsheetReportSchema = z.strictObject({
  /** Cases that come in, or that came in. */
  fresh: z.number().int(),
  /** Rows that are here already, as the same row or under the same reference. */
  known: z.number().int(),
  /** First cases as they will stand in the casebook. */
  preview: z.array(
    z.strictObject({
      line: z.number().int(),
      openedAt: timeSchema,
      printer: z.string(),
      complaint: z.string(),
      cause: z.string(),
      minutesLost: z.number(),
      gramsScrapped: z.number(),
    }),
  ),
  /** Rows that do not come in, by line of the file. */
  faults: z.array(z.strictObject({ line: z.number().int(), message: messageSchema })),
  unknownWords: z.array(unknownWordSchema),
  /** Null after a dry run. */
  importId: recordIdSchema.nullable(),
});

export const importListSchema = z.strictObject({ imports: z.array(importSchema) });

export type SpreadsheetMapping = z.output<typeof spreadsheetMappingSchema>;
export type SpreadsheetLook = z.output<typeof spreadsheetLookSchema>;
export type SpreadsheetReport = z.output<typeof spreadsheetReportSchema>;
export type UnknownWord = z.output<typeof unknownWordSchema>;
export type ImportRecord = z.output<typeof importSchema>;
