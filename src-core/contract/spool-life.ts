import { z } from 'zod';
import { idSchema, probabilitySchema, recordIdSchema, timeSchema } from './common.ts';
import { wordsSchema } from './message.ts';

const celsius = z.number().min(0).max(150);
const percentRh = z.number().min(1).max(99);

/** What can be logged about a spool, one tap each. */
export const spoolEventSchema = z.discriminatedUnion('kind', [
  /** It is somewhere else now: opened, put away, put on the printer, taken out. */
  z.strictObject({
    kind: z.literal('moved'),
    place: idSchema,
    /** Of the place on a printer: which one. */
    printerId: recordIdSchema.optional(),
    /** Of closed places: whether the desiccant is fresh. */
    desiccant: z.enum(['fresh', 'spent']).default('fresh'),
    /** Of the dryer: temperature beside the spool, °C, as measured. */
    temperatureC: celsius.nullable().default(null),
  }),
  /** Weighed, dried until nothing more came off, weighed again: the water it held before. */
  z.strictObject({
    kind: z.literal('weighed'),
    filamentGramsBefore: z.number().gt(0).max(20_000),
    filamentGramsAfter: z.number().gt(0).max(20_000),
  }),
  /** Weighed with its spool: what is left. Says nothing of its water. */
  z.strictObject({
    kind: z.literal('grams-left'),
    grossGrams: z.number().gt(0).max(20_000),
    tareGrams: z.number().min(0).max(5_000),
  }),
  z.strictObject({ kind: z.literal('undone') }),
]);

/** The air of the room: measured, typical month by month (January first), or not known. */
export const roomClimateSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('unknown') }),
  z.strictObject({ kind: z.literal('measured'), temperatureC: celsius, percentRh }),
  z.strictObject({
    kind: z.literal('by-month'),
    months: z.array(z.strictObject({ temperatureC: celsius, percentRh })).length(12),
  }),
]);

/** 10, 50 and 90 % points, percent of the filament's mass. */
const bandSchema = z.strictObject({ low: z.number(), likely: z.number(), high: z.number() });
const hoursSchema = z.strictObject({
  low: z.number().nullable(),
  likely: z.number().nullable(),
  high: z.number().nullable(),
});

/** What drying this spool takes, or why it cannot be. Contents are percent of mass. */
export const dryingReportSchema = z.strictObject({
  kind: z.enum(['dry-already', 'plan', 'cannot']),
  because: z.enum(['air-too-damp', 'too-slow']).nullable(),
  /** Temperature to set, °C, and what holds it below the dryer's own. */
  temperatureC: z.number(),
  heldBackBy: z.enum(['filament', 'spool']).nullable(),
  targetPercent: z.number(),
  equilibriumPercent: bandSchema,
  warmUpHours: z.number(),
  outerHours: hoursSchema.nullable(),
  innerHours: hoursSchema.nullable(),
  mayStayDamp: z.boolean(),
  /** Where a day at 54 °C gets it, the usual gentle drying; null where even that is too hot. */
  afterADay: z.strictObject({ outer: bandSchema, inner: bandSchema }).nullable(),
  /** Course of drying: hours from warm. */
  curve: z.array(z.strictObject({ hours: z.number(), outer: bandSchema, inner: bandSchema })),
  cautions: z.array(z.strictObject({ id: idSchema, label: z.string(), text: z.string() })),
});

/** Whether to print with a spool now, best first. */
export const SPOOL_STANDINGS = ['fit', 'near-limit', 'not-known', 'dry-first', 'do-not-use'] as const;

/** Everything a screen shows of one spool and its water. */
export const spoolReportSchema = z.strictObject({
  spoolId: recordIdSchema,
  label: z.string(),
  material: wordsSchema,
  place: z.strictObject({ id: idSchema, label: wordsSchema, since: timeSchema }).nullable(),
  /** Entries logged so far; sent back with the next one, so that two hands do not log over each other. */
  revision: z.number().int(),
  log: z.array(
    z.strictObject({ seq: z.number().int(), at: timeSchema, text: wordsSchema, isUndone: z.boolean() }),
  ),
  canUndo: z.boolean(),
  /** Why nothing is worked out, or null: no data of this polymer, or not yet opened. */
  silence: wordsSchema.nullable(),
  standing: z.enum(SPOOL_STANDINGS),
  /** How to dry it, in the words that label, remedy and planner share. */
  recipe: z.strictObject({ temperature: z.string(), hours: z.string() }),
  /** A case confirmed it as wet, and it has not been dried since. */
  foundWet: z.strictObject({ caseId: recordIdSchema, number: z.number().int(), at: timeSchema }).nullable(),
  /** When it last came out of a dryer, or was weighed dry; null where nothing says so. */
  lastDriedAt: timeSchema.nullable(),
  gramsLeft: z.strictObject({ grams: z.number(), at: timeSchema }).nullable(),
  supplier: z.string(),
  batch: z.string(),
  tareGrams: z.number().nullable(),
  flowMm3PerS: z.number(),
  water: z
    .strictObject({
      outer: bandSchema,
      inner: bandSchema,
      limit: bandSchema,
      chanceOverLimit: probabilitySchema,
      /** Of the condition `spool-water`. */
      verdict: idSchema,
      verdictLabel: z.string(),
      /** Life so far, oldest first. */
      course: z.array(z.strictObject({ at: timeSchema, outer: bandSchema, inner: bandSchema })),
      /** Volume of vapour at 1 atm for one volume of melt if all the water came off: an upper bound. */
      vapourPerMelt: z.number(),
      voidFraction: probabilitySchema,
      isotherm: z.array(z.strictObject({ percentRh: z.number(), content: bandSchema })),
    })
    .nullable(),
  drying: dryingReportSchema.nullable(),
});

export type SpoolEvent = z.infer<typeof spoolEventSchema>;
export type RoomClimate = z.infer<typeof roomClimateSchema>;
export type SpoolReport = z.infer<typeof spoolReportSchema>;
export type DryingReport = z.infer<typeof dryingReportSchema>;

/** A bag or tub to keep a spool in. */
export const storageQuestionSchema = z.strictObject({
  spoolId: recordIdSchema,
  /** An id of the guide's barriers, and what it has of it. */
  barrier: idSchema,
  areaM2: z.number().min(0.0001).max(5),
  airLitre: z.number().min(0).max(200),
  months: z.number().min(0.01).max(120),
  /** Silica gel put in, gram. */
  desiccantG: z.number().min(0).max(5000),
});

/** How much desiccant it takes, and how long what is in it lasts. */
export const storageReportSchema = z.strictObject({
  /** Units of desiccant (MIL-D-3464E) to stay below 20 % for these months, whole units upwards, and that in silica gel. */
  units: z.number(),
  silicaGrams: z.number(),
  /** Humidity inside once all has come to rest, %, and months until it passes 20 %; null when it never does. */
  percentRh: z.number(),
  monthsUntilDamp: z.number().nullable(),
  leakGramsPerMonth: z.number(),
  regenerate: z.string(),
  cautions: z.array(z.strictObject({ id: idSchema, label: z.string(), text: z.string() })),
});
export type StorageReport = z.infer<typeof storageReportSchema>;

/** What a spool report is asked with. */
export const spoolQuestionSchema = z.strictObject({
  spoolId: recordIdSchema,
  /** Flow it is to be printed at, mm³/s; what the nozzle is usually run at where none is given. */
  flowMm3PerS: z.number().min(0.1).max(200).nullable().default(null),
  /** Nozzle it is to be printed through; the guide's usual one where none is given. */
  nozzleMm: z.number().min(0.1).max(2).nullable().default(null),
  /** Dryer at hand: highest temperature beside the spool, °C. */
  dryerTemperatureC: celsius.nullable().default(null),
  /** Breathes dried air instead of the room's. */
  isDryAir: z.boolean().default(false),
  /** What drying is to reach, percent of mass; the lower end of the printing limit where none is given. */
  targetPercent: z.number().min(0.0001).max(20).nullable().default(null),
});
