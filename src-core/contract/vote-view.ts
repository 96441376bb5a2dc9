import { z } from 'zod';
import { idSchema, initialsSchema, labelSchema, recordIdSchema, timeSchema } from './common.ts';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

/** What a group votes on. */
export const BALLOT_KINDS = ['check', 'remedy', 'cause'] as const;
/** Choices of one vote: more cannot be weighed against each other at a glance. */
export const MOST_CHOICES = 12;
/** A class of this many telephones, and then some. */
const MOST_HANDS = 500;

const choiceSchema = z.strictObject({ id: idSchema, label: z.string().trim().min(1).max(200) });

/** What a trainer puts to the vote. */
export const ballotInputSchema = z.strictObject({
  /** Of the trainer's screen's making. */
  ballotId: recordIdSchema,
  kind: z.enum(BALLOT_KINDS),
  /** The case's title. */
  title: z.string().trim().min(1).max(200),
  /** What is wrong, in words, so that nobody has to read it off the wall. */
  complaints: z.array(z.string().max(200)).max(12),
  choices: z
    .array(choiceSchema)
    .min(1, texts.atLeastOneChoice)
    .max(MOST_CHOICES)
    .refine((choices) => new Set(choices.map(({ id }) => id)).size === choices.length, texts.choiceTwice),
});

/** How a vote came out, as the trainer lets everybody see it. */
export const ballotResultSchema = z.strictObject({
  /** Hands that the trainer counted, by choice. */
  hands: z.record(idSchema, z.number().int().min(0).max(MOST_HANDS)),
  /** What came of it, in words; null until it is done. */
  outcome: z.string().max(400).nullable(),
  /** The choices that are right, once that is told. */
  right: z.array(idSchema).max(MOST_CHOICES),
});

/** The vote under way, as one visitor may see it. */
export const ballotSchema = ballotInputSchema.extend({
  askedAt: timeSchema,
  /** Votes that came in from devices. */
  cast: z.number().int(),
  /** What this device, or whoever is signed in on it, voted. */
  own: idSchema.nullable(),
  /** Null until the trainer reveals: before that nobody sees how others vote. */
  result: ballotResultSchema
    .extend({ votes: z.array(z.strictObject({ choice: idSchema, count: z.number().int() })) })
    .nullable(),
  /** Who voted what; for whoever leads the session only. */
  voters: z
    .array(
      z.strictObject({
        label: labelSchema,
        personId: recordIdSchema.nullable(),
        initials: initialsSchema.nullable(),
        choice: idSchema,
      }),
    )
    .nullable(),
});

/** Null while nothing is asked. */
export const voteViewSchema = z.strictObject({ ballot: ballotSchema.nullable() });

export type BallotInput = z.infer<typeof ballotInputSchema>;
export type BallotResult = z.infer<typeof ballotResultSchema>;
export type Ballot = z.infer<typeof ballotSchema>;
export type BallotKind = (typeof BALLOT_KINDS)[number];
