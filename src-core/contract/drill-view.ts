import { z } from 'zod';
import { idSchema } from './common.ts';
import { DRILL_KINDS } from './drill-kinds.ts';

/** Question to choice, by their ids. */
export const drillAnswerSchema = z.record(z.string().max(40), z.string().max(60));

/** A drill as a trainee sees it, graded once every question has an answer. */
export const drillViewSchema = z.strictObject({
  drill: z.enum(DRILL_KINDS),
  seed: z.number().int(),
  title: z.string(),
  topic: idSchema,
  task: z.string(),
  facts: z.array(z.strictObject({ label: z.string(), value: z.string() })),
  questions: z.array(
    z.strictObject({
      id: z.string(),
      label: z.string(),
      choices: z.array(z.strictObject({ id: z.string(), label: z.string() })),
    }),
  ),
  graded: z
    .strictObject({
      isRight: z.boolean(),
      questions: z.array(
        z.strictObject({
          id: z.string(),
          given: z.string(),
          /** Choices that are right, in words. */
          right: z.array(z.string()),
          isRight: z.boolean(),
          why: z.string(),
        }),
      ),
    })
    .nullable(),
});

export type DrillAnswer = z.infer<typeof drillAnswerSchema>;
export type DrillView = z.infer<typeof drillViewSchema>;
