import { z } from 'zod';
import {
  conditionsSchema,
  idSchema,
  initialsSchema,
  labelSchema,
  noteSchema,
  recordIdSchema,
  timeSchema,
} from './common.ts';
import { TEMPERATURE_UNITS, THEMES } from './display-choices.ts';
import { ROLES } from './roles.ts';
import { shopCostsSchema } from './shop-costs.ts';
import { roomClimateSchema } from './spool-life.ts';

/**
 * What a meter's new figure is. Read: it only ran on. Corrected: an earlier figure was misread or mistyped. Reset: the
 * meter began again, with the board or by hand.
 */
export const METER_KINDS = ['read', 'corrected', 'reset'] as const;

/**
 * How often a record was written. A change carries the one that the caller looked at: a mismatch answers "stale" with the
 * shop as it stands. Left out where a record is added.
 */
const revisionSchema = z.number().int().min(1);

/** A printer of the shop; its standing circumstances (feed, hot end, nozzle…) start every case on it. */
export const printerInputSchema = z.strictObject({
  id: recordIdSchema.optional(),
  revision: revisionSchema.optional(),
  label: labelSchema,
  /** The shop's own word for machines that are kept alike: maintenance is set by it. */
  model: z.string().trim().max(80).default(''),
  conditions: conditionsSchema,
  /** Total print hours on the meter now; kept as a dated reading. */
  printHours: z.number().min(0).max(200_000),
  /** Needed where the meter shows less than before. */
  meter: z.enum(METER_KINDS).default('read'),
  note: noteSchema.default(''),
  isRetired: z.boolean().default(false),
});
export const printerSchema = printerInputSchema
  .omit({ meter: true })
  .required()
  .extend({ isDemo: z.boolean(), openCases: z.number().int() });

export const spoolInputSchema = z.strictObject({
  id: recordIdSchema.optional(),
  revision: revisionSchema.optional(),
  label: labelSchema,
  polymer: idSchema,
  filler: idSchema.default('none'),
  fillerPercent: z.number().min(0).max(80).nullable().default(null),
  storage: idSchema.nullable().default(null),
  openedAt: timeSchema.nullable().default(null),
  filamentDiameterMm: z.number().min(1).max(5).default(1.75),
  /** Filament on it when full, gram. */
  filamentGrams: z.number().min(10).max(20_000).default(1000),
  /** What it is wound on: an id of the guide's spool bodies. */
  body: idSchema.default('plastic'),
  supplier: z.string().trim().max(80).default(''),
  batch: z.string().trim().max(80).default(''),
  /** Weight of the empty spool, gram. */
  tareGrams: z.number().min(0).max(5_000).nullable().default(null),
  note: noteSchema.default(''),
  isRetired: z.boolean().default(false),
});
export const spoolSchema = spoolInputSchema.required().extend({ isDemo: z.boolean() });

export const personInputSchema = z.strictObject({
  id: recordIdSchema.optional(),
  revision: revisionSchema.optional(),
  initials: initialsSchema,
  role: z.enum(ROLES),
  isRetired: z.boolean().default(false),
});
export const personSchema = personInputSchema.required().extend({ isDemo: z.boolean() });

/** A printer or spool that is deleted for good. */
export const recordToDeleteSchema = z.strictObject({
  kind: z.enum(['printer', 'spool']),
  id: recordIdSchema,
  revision: revisionSchema,
});

/** How the shop's screens show things. */
export const displaySchema = z.strictObject({
  theme: z.enum(THEMES),
  temperatureUnit: z.enum(TEMPERATURE_UNITS),
});

/** The revision of a setting that the caller looked at; 0 where nobody had said anything yet. */
export const settingRevisionSchema = z.number().int().min(0);

export const shopSchema = z.strictObject({
  printers: z.array(printerSchema),
  spools: z.array(spoolSchema),
  people: z.array(personSchema),
  /** The air in the shop. */
  climate: roomClimateSchema,
  /** What things cost, where the shop has said. */
  costs: shopCostsSchema.nullable(),
  display: displaySchema,
  /** How often each setting was written: goes back with a change of it. */
  revisions: z.strictObject({
    climate: settingRevisionSchema,
    costs: settingRevisionSchema,
    display: settingRevisionSchema,
  }),
  hasDemo: z.boolean(),
});

export type PrinterInput = z.input<typeof printerInputSchema>;
export type SpoolInput = z.input<typeof spoolInputSchema>;
export type PersonInput = z.input<typeof personInputSchema>;
export type RecordToDelete = z.infer<typeof recordToDeleteSchema>;
export type MeterKind = (typeof METER_KINDS)[number];
export type Printer = z.infer<typeof printerSchema>;
export type Spool = z.infer<typeof spoolSchema>;
export type Person = z.infer<typeof personSchema>;
export type Shop = z.infer<typeof shopSchema>;
