import { z } from 'zod';
import { alsoCalledSchema, formerlySchema, idSchema, label, provenance, text } from './common-fields.ts';
import { facetsSchema } from './facets-schema.ts';
import { familySchema, linkSchema, linkStrengthSchema, whenSchema } from './link-schema.ts';
import { strengthSchema } from './scale.ts';

export const priorShiftSchema = z.strictObject({
  when: whenSchema,
  /** Left out while this condition is known: that one says the same better. */
  unlessKnown: idSchema.optional(),
  /** Factor on the prior odds while the condition is known to hold. */
  timesOdds: z.number().gt(0).max(1000),
  because: text,
  ...provenance,
});

export const causeSchema = z.strictObject({
  id: idSchema,
  label,
  family: familySchema,
  formerly: formerlySchema,
  alsoCalled: alsoCalledSchema,
  summary: text,
  /** How to tell it from its rivals, in an experienced hand's words. */
  tellApart: text.optional(),
  prior: z.strictObject({ perHundredCases: z.number().gt(0).max(60), ...provenance }),
  movedBy: z.array(priorShiftSchema).default([]),
  /** Mechanisms it sets going. */
  drives: z.array(linkSchema).default([]),
  /** Observations it shows directly. */
  shows: z.array(linkSchema).default([]),
  /** Shows any complaint at all with this strength: for the cause that this guide does not know. */
  showsAnyComplaint: z.strictObject({ strength: strengthSchema, ...provenance }).optional(),
  practices: z.array(idSchema).default([]),
  /** Where it sits, what it arises after, when it shows, what makes it better or worse. What is not stated is neutral. */
  facets: facetsSchema.optional(),
});

/**
 * How often each cause alone brings an observation about, in one table: written from what leads expect, read and amended as a
 * whole. It stands in the place of links that causes have to this observation.
 */
export const linkTableSchema = z.strictObject({
  id: idSchema,
  from: z.record(idSchema, linkStrengthSchema),
  /** How often it is met with nothing of this guide behind it, in the place of the observation's own. */
  leak: linkStrengthSchema.optional(),
  ...provenance,
});

export const mechanismSchema = z.strictObject({
  id: idSchema,
  label,
  formerly: formerlySchema,
  physics: text,
  leak: z.strictObject({ strength: strengthSchema, ...provenance }),
  shows: z.array(linkSchema).min(1),
});

export const practiceSchema = z.strictObject({
  id: idSchema,
  label,
  formerly: formerlySchema,
  habit: text,
  better: text,
});

export type Cause = z.infer<typeof causeSchema>;
export type LinkTable = z.infer<typeof linkTableSchema>;
export type Mechanism = z.infer<typeof mechanismSchema>;
export type Practice = z.infer<typeof practiceSchema>;
