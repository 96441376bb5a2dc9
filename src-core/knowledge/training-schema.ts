import { z } from 'zod';
import { idSchema, label, text } from './common-fields.ts';
import { familySchema } from './link-schema.ts';

/** What a trainee is to be good at. A cause belongs to the first topic that names it, or else to its family's. */
export const trainingTopicSchema = z.strictObject({
  id: idSchema,
  label,
  /** What somebody can do who has it. */
  aim: text,
  families: z.array(familySchema).default([]),
  causes: z.array(idSchema).default([]),
});

/**
 * A written practice case. What it does not say follows from the guide: other answers are drawn from the network with these
 * causes at work, and a remedy that the guide gives an even chance or better takes its cause away.
 */
export const scenarioSchema = z.strictObject({
  id: idSchema,
  title: label,
  topic: idSchema,
  difficulty: z.enum(['easy', 'middling', 'hard']),
  /** What the operator tells, in two or three sentences. */
  story: text,
  printer: text,
  spool: text,
  conditions: z.record(idSchema, z.union([idSchema, z.number()])),
  causes: z.array(idSchema).min(1).max(2),
  /** What is wrong, at which level, and which of the causes it goes away with (the first where not said). */
  complaints: z
    .array(z.strictObject({ observation: idSchema, value: idSchema, from: idSchema.optional() }))
    .min(1)
    .max(3),
  /** What a check shows while a cause is left, where it must not be left to chance. */
  answers: z.record(idSchema, idSchema).default({}),
});

/** A step of the course: something to read, cases to solve, drills to pass. */
export const lessonSchema = z.strictObject({
  id: idSchema,
  title: label,
  why: text,
  /** Sheets of the guide. */
  read: z
    .array(z.strictObject({ kind: z.enum(['cause', 'practice', 'remedy', 'observation']), id: idSchema }))
    .default([]),
  scenarios: z.array(idSchema).default([]),
  drills: z.array(idSchema).default([]),
});

export type TrainingTopic = z.infer<typeof trainingTopicSchema>;
export type Scenario = z.infer<typeof scenarioSchema>;
export type Lesson = z.infer<typeof lessonSchema>;
