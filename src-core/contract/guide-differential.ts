import { z } from 'zod';
import { linkStrengthSchema } from '../knowledge/schema.ts';
import { idSchema, probabilitySchema } from './common.ts';

/** How an observation comes about under a cause. */
const showingSchema = z.strictObject({
  observation: idSchema,
  /** Chance that the cause brings it about at all, by itself and through its mechanisms. */
  chance: probabilitySchema,
  /** The same level by level where it is graded. */
  strength: linkStrengthSchema,
  /** Mechanisms it goes through; empty where the cause shows it directly. */
  through: z.array(idSchema),
  sources: z.array(z.string()),
});

/** A cause that looks much like another, and the checks on which the two differ. */
const rivalSchema = z.strictObject({
  cause: idSchema,
  /** How much of what they look like is the same: what both show over what either shows. */
  likeness: probabilitySchema,
  checks: z.array(
    z.strictObject({
      observation: idSchema,
      minutes: z.number(),
      /** Chance that it is met under the cause asked about, and under its rival. */
      here: probabilitySchema,
      there: probabilitySchema,
    }),
  ),
});

/** What a cause looks like, and what looks like it. */
export const causeLooksSchema = z.strictObject({
  showings: z.array(showingSchema),
  rivals: z.array(rivalSchema),
});

/** What an observation says about each cause that shows it, likeliest first. */
export const observationWeightsSchema = z.array(
  z.strictObject({
    cause: idSchema,
    /** Chance that the cause shows it. */
    chance: probabilitySchema,
    /** Weight in decibans of finding it, and of not finding it, against nothing in the guide being behind it. */
    present: z.number(),
    absent: z.number(),
  }),
);

/** What statements should fit: what is complained of, or causes by how much each counts. */
export const statementsQuestionSchema = z.union([
  z.strictObject({ complaints: z.array(idSchema).max(60) }),
  z.strictObject({ causes: z.record(idSchema, z.number().min(0)) }),
]);

export type Showing = z.infer<typeof showingSchema>;
export type GuideRival = z.infer<typeof rivalSchema>;
export type CauseLooks = z.infer<typeof causeLooksSchema>;
export type ObservationWeight = z.infer<typeof observationWeightsSchema>[number];
export type StatementsQuestion = z.infer<typeof statementsQuestionSchema>;
