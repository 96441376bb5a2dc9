import { z } from 'zod';
import { idSchema, probabilitySchema } from './common.ts';
import { wordsSchema } from './message.ts';

const namedCause = z.strictObject({ cause: idSchema, label: z.string() });

/** What stands against the first candidate of a case. */
export const secondThoughtsSchema = z.strictObject({
  first: namedCause,
  /** Most probable sets of causes present together, all others absent; most probable first. */
  explanations: z.array(z.strictObject({ causes: z.array(namedCause), probability: probabilitySchema })),
  /** The strongest rivals, each with the quickest open check that tells it well from the first. */
  rivals: z.array(
    namedCause.extend({
      probability: probabilitySchema,
      check: z.strictObject({ observation: idSchema, label: z.string(), minutes: z.number() }).nullable(),
    }),
  ),
  /** Answers to open checks after which another cause comes first, most probable first. */
  decisionChangingFindings: z.array(
    z.strictObject({
      observation: idSchema,
      label: z.string(),
      value: wordsSchema,
      /** Probability of this answer. */
      probability: probabilitySchema,
      first: namedCause,
      firstProbability: probabilitySchema,
    }),
  ),
  /** Estimates of the guide that would tip the ranking if one of them moved alone; the nearest first. */
  weights: z.array(
    z.strictObject({
      /** "Wet filament, before anything is known" or "Wet filament → Popping or spitting". */
      label: wordsSchema,
      probability: probabilitySchema,
      tipsAt: probabilitySchema,
      /** How far that is on the odds; negative downwards. */
      decibans: z.number(),
      rival: namedCause,
    }),
  ),
});

export type SecondThoughts = z.infer<typeof secondThoughtsSchema>;
