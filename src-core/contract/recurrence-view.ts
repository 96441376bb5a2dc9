import { z } from 'zod';
import { idSchema, probabilitySchema, recordIdSchema, timeSchema } from './common.ts';
import { wordsSchema } from './message.ts';
import { GROUPINGS } from './recurrence-choices.ts';

export const recurrenceFilterSchema = z.strictObject({
  /** First and last day (included) by the shop's calendar; open where null. */
  fromDay: z.iso.date().nullable().default(null),
  toDay: z.iso.date().nullable().default(null),
  by: z.enum(GROUPINGS).default('printer'),
});

/** Print hours of a usual week, of which there are 168. */
export const hoursPerWeekSchema = z.number().gt(0).max(168);
/** The same by printer. */
export const usualHoursSchema = z.record(recordIdSchema, hoursPerWeekSchema);
export type UsualHoursByPrinter = z.infer<typeof usualHoursSchema>;

/** When a rate changed: a day with the first and last that it may have been (95 %), and how many times the rate of before. */
export const datedChangeSchema = z.strictObject({
  day: z.iso.date(),
  firstDay: z.iso.date(),
  lastDay: z.iso.date(),
  ratio: z.number(),
  ratioLow: z.number(),
  ratioHigh: z.number(),
  /** How many times likelier under a change than under none. */
  weight: z.number(),
});

export const spacingSchema = z.strictObject({
  meanHours: z.number(),
  lowHours: z.number(),
  highHours: z.number(),
  hoursSinceLast: z.number(),
  isUnusuallyQuiet: z.boolean(),
});

const lost = {
  count: z.number().int(),
  minutesLost: z.number(),
  gramsScrapped: z.number(),
  /** What the minutes cost; null where the shop has not said what an hour costs. */
  money: z.number().nullable(),
};

/** One thing (a cause, a habit, or every fault together) in one group, against what the others lead to expect. */
export const recurrenceRowSchema = z.strictObject({
  where: z.string(),
  whereLabel: wordsSchema,
  /** The group's id as a printer, where groups are printers. */
  printerId: recordIdSchema.nullable(),
  what: z.string(),
  whatLabel: wordsSchema,
  ...lost,
  /** Print hours of the group, or its cases: see `exposure` of the report. */
  exposure: z.number(),
  /** Some of these hours are an estimate. */
  isEstimated: z.boolean(),
  /** What the rate of the other groups leads to expect in this one. */
  expectedCount: z.number(),
  /** Exact chance of this many or more here if all groups were alike, and the same for having looked at the whole table. */
  chance: probabilitySchema,
  adjustedChance: probabilitySchema,
  standing: z.enum(['stands-out', 'worth-watching', 'could-be-chance']),
  /** Cases per 1,000 print hours, or per 100 cases, with exact 95 % limits; then with short records leaning on the others, from three cases in all on. */
  rate: z.number(),
  rateLow: z.number(),
  rateHigh: z.number(),
  leaningRate: z.number().nullable(),
  /** Since when it is so, where that can be told; only of rows that do not look like chance. */
  since: datedChangeSchema.nullable(),
  spacing: spacingSchema.nullable(),
  practices: z.array(z.strictObject({ id: idSchema, label: z.string(), better: z.string() })),
});

const share = z.strictObject({ id: z.string(), label: z.string(), ...lost });

export const recurrenceSchema = z.strictObject({
  from: timeSchema,
  to: timeSchema,
  timeZone: z.string(),
  by: z.enum(GROUPINGS),
  /** What cases are held against: print hours of the meters, or all cases of the group where hours are not known by group. */
  exposure: z.enum(['print-hours', 'cases']),
  caseCount: z.number().int(),
  minutesLost: z.number(),
  gramsScrapped: z.number(),
  money: z.number().nullable(),
  currency: z.string().nullable(),
  printHours: z.number(),
  /** Of these, the hours that nobody read off a meter: what the shop says of a usual week. */
  estimatedHours: z.number(),
  /** Printers with cases in this time whose meter tells nothing, with what is said of a usual week instead. */
  unread: z.array(
    z.strictObject({
      printerId: recordIdSchema,
      label: z.string(),
      cases: z.number().int(),
      hoursPerWeek: z.number().nullable(),
    }),
  ),
  rows: z.array(recurrenceRowSchema),
  /** How many pairs were looked at, and the most of those standing out that are expected to be chance. */
  looks: z.number().int(),
  expectedByChance: z.number(),
  /** Cases whose group is not known: they are not in the table. */
  withoutGroup: z.number().int(),
  /** Cases whose group printed nothing that anybody read off a meter: they are not in the table. */
  withoutHours: z.number().int(),
  groups: z.array(share.extend({ label: wordsSchema, printHours: z.number().nullable() })),
  causes: z.array(share),
  practices: z.array(share.extend({ better: z.string() })),
  months: z.array(
    z.strictObject({
      month: z.string(),
      count: z.number().int(),
      minutesLost: z.number(),
      printHours: z.number(),
      /** Cases per 1,000 print hours, with the limits beyond which a month is out; null without hours. */
      rate: z.number().nullable(),
      low: z.number().nullable(),
      high: z.number().nullable(),
      isOut: z.boolean(),
    }),
  ),
  /** Cases per 1,000 print hours over all months. */
  centre: z.number().nullable(),
  /** Printers and causes whose rate fell, having looked at all of them, strongest first. */
  better: z.array(
    z.strictObject({ label: z.string(), kind: z.enum(['printer', 'cause']), change: datedChangeSchema }),
  ),
});

export type Recurrence = z.infer<typeof recurrenceSchema>;
export type RecurrenceRow = z.infer<typeof recurrenceRowSchema>;
/** What was lost to a group, a cause or a habit. */
export type RecurrenceShare = Recurrence['groups'][number] | z.infer<typeof share>;
export type DatedChangeView = z.infer<typeof datedChangeSchema>;
