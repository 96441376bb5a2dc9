import { z } from 'zod';
import { idSchema } from './common.ts';
import { DRILL_KINDS } from './drill-kinds.ts';
import { messageSchema, wordsSchema } from './message.ts';

/** Question to choice, by their ids. */
export const drillAnswerSchema = z.record(z.string().max(40), z.string().max(60));

/** A drill as a trainee sees it, graded once every question has an answer. */
export const drillViewSchema = z.strictObject({
  drill: z.enum(DRILL_KINDS),
  seed: z.number().int(),
  title: messageSchema,
  topic: idSchema,
  task: wordsSchema,
  facts: z.array(z.strictObject({ label: messageSchema, value: wordsSchema })),
  questions: z.array(
    z.strictObject({
      id: z.string(),
      label: messageSchema,
      choices: z.array(z.strictObject({ id: z.string(), label: wordsSchema })),
    }),
  ),
  graded: z
    .strictObject({
      isRight: z.boolean(),
      questions: z.array(
        z.strictObject({
          id: z.string(),
          given: wordsSchema,
          /** Choices that are right, in words. */
          right: z.array(wordsSchema),
          isRight: z.boolean(),
          why: wordsSchema,
        }),
      ),
    })
    .nullable(),
});

export type DrillAnswer = z.infer<typeof drillAnswerSchema>;
export type DrillView = z.infer<typeof drillViewSchema>;
