import { z } from 'zod';
import { findingValueSchema, idSchema, probabilitySchema } from './common.ts';

/** What a trainee did, in order; with the seed it is the whole of a practice case. */
export const trainingActionSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('check'), observation: idSchema }),
  z.strictObject({ kind: z.literal('remedy'), remedy: idSchema }),
  z.strictObject({ kind: z.literal('name-cause'), cause: idSchema }),
]);

export const trainingRunSchema = z.strictObject({
  seed: z.number().int().min(0).max(0xffffffff),
  /** Family to practise, or any. */
  family: idSchema.nullable().default(null),
  actions: z.array(trainingActionSchema).max(80),
});

export const trainingViewSchema = z.strictObject({
  seed: z.number().int(),
  story: z.strictObject({
    conditions: z.array(z.strictObject({ id: idSchema, label: z.string(), valueLabel: z.string() })),
    complaints: z.array(z.strictObject({ observation: idSchema, label: z.string(), value: z.string() })),
  }),
  done: z.array(
    z.strictObject({
      kind: z.enum(['check', 'remedy', 'name-cause']),
      id: idSchema,
      label: z.string(),
      result: z.string(),
      minutes: z.number(),
      value: findingValueSchema.nullable(),
    }),
  ),
  minutesSpent: z.number(),
  checks: z.array(
    z.strictObject({
      observation: idSchema,
      label: z.string(),
      place: idSchema,
      kind: idSchema,
      minutes: z.number(),
    }),
  ),
  remedies: z.array(
    z.strictObject({ id: idSchema, label: z.string(), family: idSchema, minutes: z.number() }),
  ),
  causes: z.array(z.strictObject({ id: idSchema, label: z.string(), family: idSchema })),
  isOver: z.boolean(),
  score: z
    .strictObject({
      trueCauses: z.array(z.strictObject({ cause: idSchema, label: z.string() })),
      isCauseRight: z.boolean(),
      /** Probability the guide gave the named cause on what the trainee had found. */
      probabilityOfNamed: probabilitySchema,
      minutesSpent: z.number(),
      plannerMinutes: z.number(),
      plannerSteps: z.array(z.strictObject({ label: z.string(), result: z.string(), minutes: z.number() })),
      /** 0–100: right cause 60, time against the planner 40. */
      points: z.number().int().min(0).max(100),
      remarks: z.array(z.string()),
    })
    .nullable(),
});

export type TrainingAction = z.infer<typeof trainingActionSchema>;
export type TrainingRun = z.infer<typeof trainingRunSchema>;
export type TrainingRunInput = z.input<typeof trainingRunSchema>;
export type TrainingView = z.infer<typeof trainingViewSchema>;
