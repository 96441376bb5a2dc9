import { z } from 'zod';
import { messageSchema, wordsSchema } from './message.ts';
import {
  idSchema,
  initialsSchema,
  labelSchema,
  photoHashSchema,
  probabilitySchema,
  recordIdSchema,
  timeSchema,
} from './common.ts';
import { DRILL_KINDS } from './drill-kinds.ts';
import { drillAnswerSchema } from './drill-view.ts';
import { DIFFICULTIES } from './training-choices.ts';
import { trainingRunSchema } from './training-view.ts';

const day = z.iso.date();
const count = z.number().int().min(0);
/**
 * What a case was about, as it is kept: ids of the guide, and words for when it is not the guide of today. Sentences where results
 * of before December 2026 have them.
 */
const caseFacts = {
  title: wordsSchema,
  topics: z.array(idSchema),
  difficulty: z.enum(DIFFICULTIES),
  trueCauses: z.array(idSchema),
  trueLabel: wordsSchema,
  named: z.string(),
  isCauseRight: z.boolean(),
};

/** One thing a trainee did, as the casebook keeps it. */
export const trainingResultSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('case'),
    run: trainingRunSchema,
    ...caseFacts,
    isPassed: z.boolean(),
    points: count.max(100),
    minutes: z.number().min(0),
    plannerMinutes: z.number().min(0),
    checks: count,
    remedies: count,
    cautionsNeeded: count,
    cautionsRead: count,
    confidence: probabilitySchema.nullable(),
  }),
  /** A hand raised in a group. */
  z.strictObject({ kind: z.literal('vote'), run: trainingRunSchema, ...caseFacts }),
  z.strictObject({
    kind: z.literal('drill'),
    drill: z.enum(DRILL_KINDS),
    seed: z.number().int(),
    topic: idSchema,
    answer: drillAnswerSchema,
    isRight: z.boolean(),
  }),
  z.strictObject({ kind: z.literal('read'), lesson: idSchema }),
  z.strictObject({
    kind: z.literal('signed-off'),
    by: initialsSchema,
    lapsesOn: day,
    shown: z.array(wordsSchema).max(60),
  }),
  /** From the class table that a browser kept before results had a place here. */
  z.strictObject({
    kind: z.literal('class-table'),
    seed: z.number().int(),
    points: count.max(100),
    named: z.string().max(200),
    isCauseRight: z.boolean(),
    minutes: z.number().min(0),
    checks: count,
    remedies: count,
  }),
]);

/** What a screen sends: what was done, not how it went; the host works that out from the guide. */
export const trainingDoneSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('case'), run: trainingRunSchema }),
  z.strictObject({ kind: z.literal('vote'), run: trainingRunSchema }),
  z.strictObject({
    kind: z.literal('drill'),
    drill: z.enum(DRILL_KINDS),
    seed: z.number().int().min(0).max(0xffffffff),
    answer: drillAnswerSchema,
  }),
  z.strictObject({ kind: z.literal('read'), lesson: idSchema }),
  z.strictObject({ kind: z.literal('signed-off'), by: initialsSchema, lapsesOn: day }),
  trainingResultSchema.options[5],
]);

export const keptResultSchema = z.strictObject({
  resultId: recordIdSchema,
  at: timeSchema,
  result: trainingResultSchema,
});

const topicSkillSchema = z.strictObject({
  topic: idSchema,
  label: z.string(),
  aim: z.string(),
  known: probabilitySchema,
  items: count,
});

/** How many topics somebody probably has: mean, and between 5 % and 95 %. */
const topicCountSchema = z.strictObject({ expected: z.number(), low: count, high: count });

const lessonProgressSchema = z.strictObject({
  lesson: idSchema,
  title: z.string(),
  why: z.string(),
  steps: z.array(
    z.strictObject({
      kind: z.enum(['read', 'scenario', 'drill']),
      id: z.string(),
      label: wordsSchema,
      isDone: z.boolean(),
    }),
  ),
  sheets: z.array(z.strictObject({ kind: z.string(), id: idSchema, label: z.string() })),
  isDone: z.boolean(),
});

const suggestionSchema = z.strictObject({
  because: messageSchema,
  next: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('case'), run: trainingRunSchema }),
    z.strictObject({ kind: z.literal('drill'), drill: z.enum(DRILL_KINDS) }),
  ]),
});

/** Everything about one trainee. */
export const traineeRecordSchema = z.strictObject({
  personId: recordIdSchema,
  initials: z.string(),
  /** Oldest first. */
  results: z.array(keptResultSchema),
  unreadable: count,
  skills: z.array(topicSkillSchema),
  known: topicCountSchema,
  comesBack: z.array(
    z.strictObject({ item: z.string(), label: wordsSchema, dueOn: timeSchema, isDue: z.boolean() }),
  ),
  suggestion: suggestionSchema.nullable(),
  course: z.array(lessonProgressSchema),
  /** How often the cause was right where somebody said how sure he was, the least sure first. */
  calibration: z.array(z.strictObject({ stated: probabilitySchema, cases: count, right: count })),
  /** Mean of Brier's score over these cases, 0 to 100; null where nobody has said it yet. */
  confidenceScore: z.number().min(0).max(100).nullable(),
  signOff: z
    .strictObject({ by: z.string(), at: timeSchema, lapsesOn: day, hasLapsed: z.boolean() })
    .nullable(),
});

/** The trainer's view: everybody, and what the group is weak in. */
export const trainingClassSchema = z.strictObject({
  people: z.array(
    z.strictObject({
      personId: recordIdSchema,
      initials: z.string(),
      results: count,
      known: topicCountSchema,
      skills: z.array(z.strictObject({ topic: idSchema, known: probabilitySchema, items: count })),
      lessonsDone: count,
      lastAt: timeSchema.nullable(),
      /** Cases in order of time: points, and how many topics were probably had after each. */
      course: z.array(z.strictObject({ at: timeSchema, points: count, expectedKnown: z.number() })),
      /** What came without a break of hours before the last result, and what it changed; null while there is none. */
      sitting: z
        .strictObject({
          beganAt: timeSchema,
          results: count,
          cases: count,
          passed: count,
          knownBefore: z.number(),
          knownAfter: z.number(),
        })
        .nullable(),
      signOff: z.strictObject({ lapsesOn: day, hasLapsed: z.boolean() }).nullable(),
    }),
  ),
  lessons: count,
  /** Weakest first, what nobody tried last: mean chance that somebody of the group has it. */
  topics: z.array(
    z.strictObject({ topic: idSchema, label: z.string(), known: probabilitySchema, items: count }),
  ),
  /** Causes by how many got them wrong, most first. */
  missed: z.array(z.strictObject({ item: z.string(), label: wordsSchema, wrong: count, tries: count })),
  /** Cases by how many got their cause wrong, most first. */
  missedCases: z.array(
    z.strictObject({
      title: wordsSchema,
      /** The written case, where it is one. */
      scenario: idSchema.nullable(),
      wrong: count,
      tries: count,
    }),
  ),
});

/** Photos of a case, in the order in which they were taken. */
export const practicePhotosSchema = z.strictObject({
  photos: z.array(
    z.strictObject({
      photo: photoHashSchema,
      at: timeSchema,
      /** Somebody has looked at it and lets trainees see it. */
      isFree: z.boolean(),
    }),
  ),
});

/** What can be practised, without the answers. */
export const trainingOptionsSchema = z.strictObject({
  topics: z.array(z.strictObject({ id: idSchema, label: z.string() })),
  scenarios: z.array(
    z.strictObject({ id: idSchema, title: z.string(), topic: idSchema, difficulty: z.enum(DIFFICULTIES) }),
  ),
  cases: z.array(
    z.strictObject({
      caseId: recordIdSchema,
      number: z.number().int(),
      complaint: z.string(),
      hasPhotos: z.boolean(),
    }),
  ),
  people: z.array(z.strictObject({ id: recordIdSchema, initials: labelSchema })),
});

export type TrainingResult = z.infer<typeof trainingResultSchema>;
export type TrainingDone = z.infer<typeof trainingDoneSchema>;
export type KeptResult = z.infer<typeof keptResultSchema>;
export type TraineeRecord = z.infer<typeof traineeRecordSchema>;
export type TrainingClass = z.infer<typeof trainingClassSchema>;
export type TrainingOptions = z.infer<typeof trainingOptionsSchema>;
