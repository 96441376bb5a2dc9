import { z } from 'zod';
import { alsoCalledSchema, formerlySchema, idSchema, label, text } from './common-fields.ts';

export const conditionSchema = z.strictObject({
  id: idSchema,
  label,
  formerly: formerlySchema,
  alsoCalled: alsoCalledSchema,
  ask: text,
  /** Allowed values of a choice, in a meaningful order. */
  values: z
    .array(z.strictObject({ id: idSchema, label, formerly: formerlySchema, alsoCalled: alsoCalledSchema }))
    .min(2)
    .optional(),
  /** Range of a number, in the unit named. */
  number: z.strictObject({ unit: z.string().min(1).max(16), min: z.number(), max: z.number() }).optional(),
});

export type Condition = z.infer<typeof conditionSchema>;
