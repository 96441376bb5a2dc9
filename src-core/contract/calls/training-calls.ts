import { z } from 'zod';
import { whyCandidateSchema, whyCheckSchema } from '../case-view.ts';
import { idSchema, photoHashSchema, recordIdSchema } from '../common.ts';
import { secondThoughtsSchema } from '../second-thoughts-view.ts';
import { DRILL_KINDS } from '../drill-kinds.ts';
import { drillAnswerSchema, drillViewSchema } from '../drill-view.ts';
import {
  practicePhotosSchema,
  traineeRecordSchema,
  trainingClassSchema,
  trainingDoneSchema,
  trainingOptionsSchema,
} from '../training-results.ts';
import { trainingRunSchema, trainingViewSchema } from '../training-view.ts';
import { ballotInputSchema, ballotResultSchema, voteViewSchema } from '../vote-view.ts';
import { nothing, screens, theCase, thePerson } from './shared.ts';

/** Practice, drills, the course and the vote of a group session. */
export const trainingCalls = {
  'training:view': { input: trainingRunSchema, output: trainingViewSchema, callers: screens },
  /** The same questions as of a case, of a practice case in which the guide helps. */
  'training:why-candidate': {
    input: z.strictObject({ run: trainingRunSchema, cause: idSchema }),
    output: whyCandidateSchema,
    callers: screens,
  },
  'training:why-check': {
    input: z.strictObject({ run: trainingRunSchema, observation: idSchema }),
    output: whyCheckSchema,
    callers: screens,
  },
  'training:second-thoughts': {
    input: z.strictObject({ run: trainingRunSchema }),
    output: secondThoughtsSchema.nullable(),
    callers: screens,
  },
  'training:options': { input: nothing, output: trainingOptionsSchema, callers: screens },
  'training:drill': {
    input: z.strictObject({
      drill: z.enum(DRILL_KINDS),
      seed: z.number().int().min(0).max(0xffffffff),
      /** Null until it is handed in. */
      answer: drillAnswerSchema.nullable().default(null),
    }),
    output: drillViewSchema,
    callers: screens,
  },
  /** Photos of a closed case, each checked off before trainees see it. */
  'training:photos': { input: theCase, output: practicePhotosSchema, callers: screens },
  'training:free-photo': {
    input: theCase.extend({ photo: photoHashSchema, isFree: z.boolean() }),
    output: practicePhotosSchema,
    callers: screens,
  },
  'training:record': { input: thePerson, output: traineeRecordSchema, callers: screens },
  'training:class': { input: nothing, output: trainingClassSchema, callers: screens },
  'training:keep': {
    input: thePerson.extend({
      /** Of the screen's making: sent a second time it answers "stale" with the record as it stands. */
      resultId: recordIdSchema,
      done: trainingDoneSchema,
    }),
    output: traineeRecordSchema,
    callers: screens,
  },
  'training:export': {
    input: thePerson,
    output: z.strictObject({ jsonLines: z.string(), count: z.number().int() }),
    callers: screens,
  },
  /** Deletes all that is kept of a person's training; done twice it changes nothing more. */
  'training:forget': { input: thePerson, output: traineeRecordSchema, callers: screens },
  /** The vote of a group session that is under way, as the caller may see it. */
  'vote:look': { input: nothing, output: voteViewSchema, callers: screens },
  /** Puts a vote up, in the place of the one before; sent a second time it answers "stale". */
  'vote:ask': { input: ballotInputSchema, output: voteViewSchema, callers: screens },
  /** One vote a person, or a device on which nobody is signed in; the last one counts, until it is revealed. */
  'vote:cast': {
    input: z.strictObject({ ballotId: recordIdSchema, choice: idSchema }),
    output: voteViewSchema,
    callers: screens,
  },
  /** Lets everybody see how it came out, and later what came of it. */
  'vote:reveal': {
    input: z.strictObject({ ballotId: recordIdSchema, result: ballotResultSchema }),
    output: voteViewSchema,
    callers: screens,
  },
  'vote:end': { input: nothing, output: voteViewSchema, callers: screens },
} as const;
