import { z } from 'zod';
import { otherCaseSchema } from './case-event.ts';
import { idSchema, probabilitySchema } from './common.ts';

/** A share of counted things, with exact 95 % limits. */
const seenShareSchema = z.strictObject({
  count: z.number().int(),
  of: z.number().int(),
  share: probabilitySchema,
  low: probabilitySchema,
  high: probabilitySchema,
});

/** How the guide did in the shop's own closed cases, from what was kept of each while it was under way. */
export const guideUseSchema = z.strictObject({
  /** Closed cases looked at: the newest. */
  cases: z.number().int(),
  /** There are older ones besides. */
  isMore: z.boolean(),
  /** Those of the demo shop, as the shop has none of its own yet. */
  isDemo: z.boolean(),
  /** Of them those whose odds were kept when they were closed. */
  withOdds: z.number().int(),
  /** Where the confirmed cause stood among the candidates then: 1 to 6, or null for further down. */
  ranks: z.array(z.strictObject({ rank: z.number().int().nullable(), cases: z.number().int() })),
  first: seenShareSchema.nullable(),
  /** Candidates by how likely they were said to be, and how many of them were confirmed. */
  calibration: z.array(
    seenShareSchema.extend({
      from: probabilitySchema,
      to: probabilitySchema,
      /** The mean of what was said. */
      said: probabilitySchema,
    }),
  ),
  /** Minutes from opening a case to its cure, nights and waiting among them: the middle, and between which half of them lie. */
  cure: z
    .strictObject({
      cases: z.number().int(),
      medianMinutes: z.number(),
      lowMinutes: z.number(),
      highMinutes: z.number(),
    })
    .nullable(),
  /** Checks as they were answered: how often one moved any candidate by five points or more. Those that did least first. */
  checks: z.array(
    z.strictObject({
      observation: idSchema,
      label: z.string(),
      minutes: z.number().nullable(),
      answered: z.number().int(),
      moved: z.number().int(),
      notTold: z.number().int(),
      neverPays: z.boolean(),
    }),
  ),
  /** Remedies that were carried out to the end. Those that cured least first. */
  remedies: z.array(seenShareSchema.extend({ remedy: idSchema, label: z.string(), neverCures: z.boolean() })),
  namedByHand: z.array(z.strictObject({ label: z.string(), cases: z.array(otherCaseSchema) })),
});
export type GuideUse = z.infer<typeof guideUseSchema>;
