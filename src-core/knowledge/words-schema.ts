import { z } from 'zod';
import { idSchema, label } from './common-fields.ts';

const phrases = z.array(label).max(80);

/** How a value of a circumstance is said: "new roll" for `last-change: new-spool`. */
export const saidValueSchema = z.strictObject({
  condition: idSchema,
  value: idSchema,
  words: phrases.min(1),
});

/** How a number of a circumstance is said: the words that stand near it, and its bounds where nothing stands near. */
export const saidNumberSchema = z.strictObject({
  condition: idSchema,
  /** Any of these close to the number tells that it is meant. */
  near: phrases.min(1),
  /** A number with this unit and nothing near it is taken for it when it lies in these bounds. */
  alone: z.strictObject({ atLeast: z.number(), below: z.number() }).optional(),
});

/** A suspicion that somebody has ruled out, and the observation that would say so: offered, never taken. */
export const ruledOutSchema = z.strictObject({ words: phrases.min(1), observation: idSchema });

/** Words of the trade: what the search and "Start in your own words" go by. Spelling and endings are no matter here. */
export const wordsSchema = z.strictObject({
  /** Words that say nothing by themselves. */
  small: z.array(label).max(300).default([]),
  /** Words that say little, as they go with everything: they count a little. */
  light: z.array(label).max(300).default([]),
  /** Words that are never cut to their root, as another word has the same one: "extruder" is not "extrude". */
  whole: phrases.default([]),
  /** Rows of words and short phrases that mean the same here; each stands in one row only. */
  same: z.array(z.array(label).min(2).max(40)).max(600).default([]),
  /** A wide word finds the narrow ones, not the other way round: "noise" finds squeaks. */
  wider: z.array(z.strictObject({ word: label, finds: phrases.min(1) })).default([]),
  /** How people say no, how bad it is, and how a try went. */
  said: z
    .strictObject({
      not: phrases.default([]),
      slight: phrases.default([]),
      heavy: phrases.default([]),
      cured: phrases.default([]),
      better: phrases.default([]),
      unchanged: phrases.default([]),
      /** Behind a number: "10 degrees hotter" is no setting. */
      relative: phrases.default([]),
    })
    .default({ not: [], slight: [], heavy: [], cured: [], better: [], unchanged: [], relative: [] }),
  values: z.array(saidValueSchema).default([]),
  numbers: z.array(saidNumberSchema).default([]),
  ruledOut: z.array(ruledOutSchema).default([]),
});

export type Words = z.infer<typeof wordsSchema>;

/** A guide without words of its own. */
export const NO_WORDS: Words = wordsSchema.parse({});
