import { z } from 'zod';
import { wordsSchema } from './message.ts';
import { intervalSchema } from '../knowledge/maintenance-schema.ts';
import { MAINTENANCE_UNITS } from './maintenance-units.ts';
import { actionEffectSchema } from './action-view.ts';
import { idSchema, initialsSchema, labelSchema, noteSchema, recordIdSchema, timeSchema } from './common.ts';

/** What a printer's own counters show, in all; null for what was not read. Metres of filament. */
export const counterReadingSchema = z.strictObject({
  printHours: z.number().min(0).max(200_000).nullable().default(null),
  prints: z.number().int().min(0).max(1_000_000).nullable().default(null),
  metres: z.number().min(0).max(10_000_000).nullable().default(null),
});

const details = {
  by: initialsSchema.nullable().default(null),
  /** What was fitted, in the shop's words: "0.6 hardened". */
  part: z.string().trim().max(80).default(''),
  note: noteSchema.default(''),
  reading: counterReadingSchema.nullable().default(null),
};

/** Everything that can happen in a printer's maintenance. Its log is the history. */
export const maintenanceEventSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('done'), task: idSchema, ...details }),
  /** What was not said with the one tap. */
  z.strictObject({ kind: z.literal('detailed'), of: z.number().int().min(1), ...details }),
  z.strictObject({ kind: z.literal('counters-read'), reading: counterReadingSchema }),
  /** Takes back one entry, and what was added to it. */
  z.strictObject({ kind: z.literal('undone'), of: z.number().int().min(1) }),
]);

/** What the shop does otherwise than the guide: for a model of printer, or for all where none is named. */
export const maintenanceRuleSchema = z.strictObject({
  model: z.string().trim().max(80),
  task: idSchema,
  /** Of a task of the shop's own; null for one of the guide. */
  label: labelSchema.nullable(),
  /** Null: not done here. */
  every: intervalSchema.nullable(),
});
export const maintenancePlanSchema = z.strictObject({ rules: z.array(maintenanceRuleSchema).max(400) });

/** How much of an interval is used up. */
export const usedLimitSchema = z.strictObject({
  unit: z.enum(MAINTENANCE_UNITS),
  used: z.number(),
  every: z.number(),
  /** The counter was not read of late: what has been printed since is taken from before. */
  isEstimated: z.boolean(),
});

export const dueTaskSchema = z.strictObject({
  task: idSchema,
  label: z.string(),
  isOwn: z.boolean(),
  due: z.enum(['overdue', 'this-week', 'later', 'not-counted']),
  /** The day on which it is due at the pace of late; null where nobody can tell. */
  dueOn: z.iso.date().nullable(),
  /** Of the limit nearest to being reached: 1 is due. */
  share: z.number(),
  limits: z.array(usedLimitSchema),
  /** Since when it is counted: the last time it was done, or the printer's first reading. */
  since: timeSchema,
  /** Entry of the last time; null where it was never logged. */
  last: z.strictObject({ seq: z.number().int(), at: timeSchema, part: z.string() }).nullable(),
});

const printerMaintenanceSchema = z.strictObject({
  printerId: recordIdSchema,
  label: z.string(),
  model: z.string(),
  /** A danger sign stands: nothing is proposed there until somebody qualified has taken over. */
  isInDanger: z.boolean(),
  /** Most urgent first. */
  tasks: z.array(dueTaskSchema),
  /** Entries logged so far: goes back with the next one. */
  revision: z.number().int(),
  unreadable: z.number().int(),
});

export const maintenanceListSchema = z.strictObject({
  /** Those in use, by label. */
  printers: z.array(printerMaintenanceSchema),
  plan: maintenancePlanSchema,
  planRevision: z.number().int(),
  today: z.iso.date(),
});

export const maintenanceHistorySchema = z.strictObject({
  printerId: recordIdSchema,
  /** Newest first; those taken back as well. */
  entries: z.array(
    z.strictObject({
      seq: z.number().int(),
      at: timeSchema,
      task: idSchema.nullable(),
      label: wordsSchema,
      by: z.string().nullable(),
      part: z.string(),
      note: z.string(),
      reading: counterReadingSchema.nullable(),
      isUndone: z.boolean(),
      /** Cases of what it keeps away, before and since: from the time before until the next time. */
      effect: actionEffectSchema.nullable(),
      /** What was counted: "Dry rails", "Dirty lead screw". */
      effectOf: z.array(z.string()),
    }),
  ),
  /** What the counters showed last. */
  counters: counterReadingSchema.required(),
  /** Circumstances of the next case on this printer that follow from the dates. */
  conditions: z.array(
    z.strictObject({
      condition: idSchema,
      label: z.string(),
      value: z.number(),
      unit: z.string(),
      because: wordsSchema,
    }),
  ),
});

export type CounterReading = z.output<typeof counterReadingSchema>;
export type MaintenanceEvent = z.output<typeof maintenanceEventSchema>;
export type MaintenanceEventInput = z.input<typeof maintenanceEventSchema>;
export type MaintenanceRule = z.output<typeof maintenanceRuleSchema>;
export type MaintenancePlan = z.output<typeof maintenancePlanSchema>;
export type DueTask = z.output<typeof dueTaskSchema>;
export type MaintenanceList = z.output<typeof maintenanceListSchema>;
export type PrinterMaintenance = MaintenanceList['printers'][number];
export type MaintenanceHistory = z.output<typeof maintenanceHistorySchema>;
