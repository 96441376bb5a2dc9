import { z } from 'zod';
import { MAINTENANCE_UNITS } from '../contract/maintenance-units.ts';
import { alsoCalledSchema, formerlySchema, idSchema, label, provenance, text } from './common-fields.ts';
import { whenSchema } from './link-schema.ts';
import { MACHINE_STATES } from './machine-states-schema.ts';
import { hazardSchema, stepSchema } from './remedy-schema.ts';

/** Whichever of these is reached first. */
export const intervalSchema = z
  .partialRecord(z.enum(MAINTENANCE_UNITS), z.number().gt(0).max(1_000_000))
  .refine(
    (every) => Object.keys(every).length > 0,
    'say how often: after so many hours, prints, metres or days',
  );

export const maintenanceTaskSchema = z.strictObject({
  id: idSchema,
  label,
  formerly: formerlySchema,
  alsoCalled: alsoCalledSchema,
  why: text,
  /** Only of printers that are known to be like this. */
  when: whenSchema.optional(),
  every: intervalSchema,
  /** Other intervals for printers that are known to be like this; the first that holds counts. */
  variants: z.array(z.strictObject({ when: whenSchema, every: intervalSchema, ...provenance })).default([]),
  ...provenance,
  minutes: z.number().gt(0).max(1440),
  /** What the machine must be doing meanwhile. */
  machine: z.enum(MACHINE_STATES),
  involves: z.array(hazardSchema).default([]),
  parts: z.array(label).default([]),
  tools: z.array(label).default([]),
  /** What is asked for when it is done, where a part may be fitted: "Nozzle". */
  partFitted: label.optional(),
  /** Causes that it keeps away. */
  against: z.array(idSchema).default([]),
  /** Circumstances of a case that follow from when it was last done. */
  counts: z
    .array(z.strictObject({ condition: idSchema, as: z.enum(['hours', 'abrasiveHours', 'days']) }))
    .default([]),
  steps: z.array(stepSchema).min(1).max(20),
});

/** How a filler wears a nozzle, by the filler's id. */
export const nozzleWearSchema = z.strictObject({
  id: idSchema,
  /** Metres of plain filament that wear it as much as one metre of this. */
  timesPlain: z.number().min(1).max(1000),
  /** Counts where hours with abrasive filament are asked for. */
  isAbrasive: z.boolean().default(false),
  ...provenance,
});

export type Interval = z.infer<typeof intervalSchema>;
export type MaintenanceTask = z.infer<typeof maintenanceTaskSchema>;
export type NozzleWear = z.infer<typeof nozzleWearSchema>;
