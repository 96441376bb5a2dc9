import { z } from 'zod';
import { alsoCalledSchema, formerlySchema, idSchema, label, text } from './common-fields.ts';

/** What a circumstance is about: screens list them so. */
export const CONDITION_TOPICS = [
  'filament',
  'machine',
  'settings',
  'change',
  'fault',
  'room',
  'use',
] as const;

export const conditionSchema = z.strictObject({
  id: idSchema,
  label,
  formerly: formerlySchema,
  alsoCalled: alsoCalledSchema,
  ask: text,
  about: z.enum(CONDITION_TOPICS).optional(),
  /** Belongs to a printer for good: entered there once, known in each of its cases. */
  staysWith: z.literal('printer').optional(),
  /** Allowed values of a choice, in a meaningful order. */
  values: z
    .array(z.strictObject({ id: idSchema, label, formerly: formerlySchema, alsoCalled: alsoCalledSchema }))
    .min(2)
    .optional(),
  /** Range of a number, in the unit named. */
  number: z.strictObject({ unit: z.string().min(1).max(16), min: z.number(), max: z.number() }).optional(),
});

export type Condition = z.infer<typeof conditionSchema>;
