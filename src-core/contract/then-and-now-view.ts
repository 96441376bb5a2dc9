import { z } from 'zod';
import { idSchema, probabilitySchema } from './common.ts';
import { wordsSchema } from './message.ts';

const named = z.strictObject({ id: idSchema, label: z.string() });

/** What a case was to go on with: a check, a remedy, or handing over. */
const nextStepSchema = z.strictObject({ kind: z.enum(['check', 'remedy', 'hand-over']), label: wordsSchema });

const side = {
  next: nextStepSchema.nullable(),
  /** The remedy that would be offered first; null where none would. */
  remedy: named.nullable(),
};

/** A difference between the guide of that day and today's that touches this case. */
const changeSchema = z.strictObject({
  kind: z.enum(['link', 'prior', 'new-cause', 'cause-gone']),
  cause: z.string(),
  /** What was found, where the link to it changed. */
  observation: z.string().nullable(),
  /** Null where one of the guides does not say. */
  before: probabilitySchema.nullable(),
  now: probabilitySchema.nullable(),
});

/** What a case concluded when its newest entry was made, and what it would conclude today. */
export const thenAndNowSchema = z.strictObject({
  /**
   * Where "then" comes from: kept on that day; worked out again from the guide of that day with today's sums; or not to be
   * had, as the guide of that day was not kept or cannot be read any more.
   */
  then: z.strictObject({ from: z.enum(['kept', 'worked-out', 'not-known']), ...side }),
  now: z.strictObject(side),
  /** Of then or now the first six; probabilities and places are null on the side where a candidate is not among the first six. */
  candidates: z.array(
    named.extend({
      then: probabilitySchema.nullable(),
      now: probabilitySchema.nullable(),
      placeThen: z.number().int().nullable(),
      placeNow: z.number().int().nullable(),
    }),
  ),
  isOtherGuide: z.boolean(),
  isOtherEngine: z.boolean(),
  /** The most that a candidate moved through the sums alone, with the same guide; null where that cannot be told. */
  movedByEngine: probabilitySchema.nullable(),
  /** The same through the guide alone, with the same sums. */
  movedByGuide: probabilitySchema.nullable(),
  /** What of the guide changed that touches this case, largest first; null where the guide of that day cannot be read. */
  changes: z.array(changeSchema).nullable(),
  /** Changes beyond those listed. */
  moreChanges: z.number().int(),
});
export type ThenAndNow = z.infer<typeof thenAndNowSchema>;
