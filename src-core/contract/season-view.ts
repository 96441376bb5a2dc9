import { z } from 'zod';
import { probabilitySchema } from './common.ts';

export const monthSchema = z.string().regex(/^\d{4}-(0[1-9]|1[0-2])$/);
export const percentRhSchema = z.number().min(1).max(99);

/** Humidity of single months as somebody read it, by month. */
export const monthHumiditySchema = z.record(monthSchema, percentRhSchema);
export type MonthHumidity = z.infer<typeof monthHumiditySchema>;

const correlationSchema = z.strictObject({
  /** Spearman's coefficient, -1 to 1. */
  coefficient: z.number(),
  /** Of one so far from 0 by chance alone. */
  chance: probabilitySchema,
  isExact: z.boolean(),
});
const halfSchema = z.strictObject({
  months: z.number().int(),
  count: z.number().int(),
  printHours: z.number(),
});

/** Cases by month beside the room's humidity, and what may be concluded from them. */
export const seasonSchema = z.strictObject({
  /** Of the humidity that was entered by month. */
  revision: z.number().int(),
  months: z.array(
    z.strictObject({
      month: monthSchema,
      percentRh: percentRhSchema.nullable(),
      /** Read for this very month, typical of the month of the year (the shop's room air), or missing. */
      source: z.enum(['entered', 'typical', 'missing']),
      /** Closed cases with a cause that lets steam into the melt, and all others. */
      moisture: z.number().int(),
      rest: z.number().int(),
      printHours: z.number(),
    }),
  ),
  /** Cases are held against print hours; where too few months have any, moisture-related ones against all cases. */
  against: z.enum(['print-hours', 'cases']),
  /** Months that could be used: humidity known, and printed (or a case) in them. */
  used: z.number().int(),
  /**
   * "with-humidity": more of them in damp months than chance explains; "both": and of the others as well; "against-humidity":
   * fewer; "chance": no more than it explains; otherwise why nothing can be told.
   */
  verdict: z.enum([
    'with-humidity',
    'both',
    'against-humidity',
    'chance',
    'few-months',
    'few-cases',
    'same-air',
  ]),
  /** Months, and moisture-related cases, from which on it is told. */
  needed: z.strictObject({ months: z.number().int(), cases: z.number().int() }),
  moisture: correlationSchema.nullable(),
  /** The same of the other cases: what moves both is not the water. Null where cases are held against all cases. */
  rest: correlationSchema.nullable(),
  /** Moisture-related cases in the damper half of the months and the drier one, as a ratio of rates with exact 95 % limits. */
  halves: z
    .strictObject({
      /** Damper months have more than this. */
      above: z.number(),
      damp: halfSchema,
      dry: halfSchema,
      ratio: z.number().nullable(),
      low: z.number(),
      high: z.number().nullable(),
    })
    .nullable(),
});
export type Season = z.infer<typeof seasonSchema>;
