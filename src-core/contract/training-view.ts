import { z } from 'zod';
import { messageSchema, wordsSchema } from './message.ts';
import {
  findingValueSchema,
  idSchema,
  photoHashSchema,
  probabilitySchema,
  recordIdSchema,
} from './common.ts';
import { caseEventSchema } from './case-event.ts';
import { caseViewSchema } from './case-view.ts';
import { DIFFICULTIES, SHEET_KINDS } from './training-choices.ts';
import { contractTexts } from '../words/en/contract.ts';

/** Whether the trainee read what can hurt somebody before doing it. */
const readCautions = z.boolean().default(false);

/** What takes minutes or ends the case: looking, trying, naming the cause. It is what is scored. */
export const trainingActionSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('check'), observation: idSchema, readCautions }),
  z.strictObject({ kind: z.literal('remedy'), remedy: idSchema, readCautions }),
  z.strictObject({
    kind: z.literal('name-cause'),
    cause: idSchema,
    /** The habit behind it. */
    practice: idSchema.nullable().default(null),
    /** How sure the trainee is of the cause. */
    confidence: probabilitySchema.nullable().default(null),
  }),
]);

/** A step through the screens of a case: which question, which answer, which remedy is under way. It takes no minutes. */
const screenEventSchema = z.strictObject({ kind: z.literal('event'), event: caseEventSchema });
const runActionSchema = z.discriminatedUnion('kind', [...trainingActionSchema.options, screenEventSchema]);

/** Looks, tries and names: each of them is thought through in the debrief. */
const MOST_SCORED = 80;
/** With the steps through the screens between them. */
const MOST_ACTIONS = 600;

export const trainingRunSchema = z.strictObject({
  seed: z.number().int().min(0).max(0xffffffff),
  /** Family to practise, or any. */
  family: idSchema.nullable().default(null),
  /** Topic to practise, or any. */
  topic: idSchema.nullable().default(null),
  /** A cause that has to be behind it: what was missed comes back. */
  focus: idSchema.nullable().default(null),
  difficulty: z.enum(DIFFICULTIES).nullable().default(null),
  /** How many causes are at work; null leaves it to chance. */
  causes: z
    .union([z.literal(1), z.literal(2)])
    .nullable()
    .default(null),
  /** How often a check shows what is not so, 0 to 0.3. */
  wrongAnswers: z.number().min(0).max(0.3).default(0),
  /** A written case, which draws nothing. */
  scenario: idSchema.nullable().default(null),
  /** A closed case of the shop's own. */
  caseId: recordIdSchema.nullable().default(null),
  /** The guide helps: its odds after every step, and in the screens of a case its questions. */
  withOdds: z.boolean().default(false),
  /** Worked in the screens of a real case. */
  asCase: z.boolean().default(false),
  /** What was done, in order; with the seed it is the whole of a practice case. */
  actions: z
    .array(runActionSchema)
    .max(MOST_ACTIONS)
    .refine((actions) => actions.filter(({ kind }) => kind !== 'event').length <= MOST_SCORED, {
      params: { said: contractTexts.m.practiceTooLong({ most: MOST_SCORED }) },
    }),
});

const cautionTextSchema = z.strictObject({ id: idSchema, label: z.string(), text: z.string() });
const sheetSchema = z.strictObject({ kind: z.enum(SHEET_KINDS), id: idSchema });
const named = z.strictObject({ id: idSchema, label: z.string() });
const doneSchema = z.strictObject({
  kind: z.enum(['check', 'remedy', 'name-cause']),
  id: idSchema,
  label: z.string(),
  result: wordsSchema,
  minutes: z.number(),
  value: findingValueSchema.nullable(),
});

/** One thing the trainee did beside what the planner would have done on the same findings. */
export const debriefStepSchema = z.strictObject({
  label: z.string(),
  result: wordsSchema,
  minutes: z.number(),
  sheet: sheetSchema,
  /** What the planner would have done here; null where it would have handed the case over. */
  planner: z.strictObject({ label: z.string(), minutes: z.number(), sheet: sheetSchema }).nullable(),
  isSame: z.boolean(),
  /** Minutes that the other way was expected to save; null where the planner did not weigh what was done. */
  costMinutes: z.number().nullable(),
  /** What can hurt somebody here and was not read first. */
  missedCautions: z.array(cautionTextSchema),
});

export const trainingScoreSchema = z.strictObject({
  trueCauses: z.array(z.strictObject({ cause: idSchema, label: z.string() })),
  isCauseRight: z.boolean(),
  /** The right cause, and nobody hurt on the way. */
  isPassed: z.boolean(),
  /** Probability the guide gave the named cause on what the trainee had found. */
  probabilityOfNamed: probabilitySchema,
  minutesSpent: z.number(),
  checks: z.number().int(),
  remedies: z.number().int(),
  planner: z.strictObject({
    isCured: z.boolean(),
    minutes: z.number(),
    checks: z.number().int(),
    /** Minutes over this and further runs of the same case with other luck, least first. */
    spread: z.array(z.number()),
    steps: z.array(
      z.strictObject({ label: z.string(), result: wordsSchema, minutes: z.number(), sheet: sheetSchema }),
    ),
  }),
  /** Stated confidence by Brier's proper score: 0 (sure and wrong) to 100 (sure and right). */
  confidence: z.strictObject({ stated: probabilitySchema, score: z.number() }).nullable(),
  /** The habit behind the cause; null where the guide names none. */
  practice: z
    .strictObject({ named: named.nullable(), isRight: z.boolean(), right: z.array(named) })
    .nullable(),
  cautions: z.strictObject({ needed: z.number().int(), read: z.number().int() }),
  difficulty: z.enum(DIFFICULTIES),
  topics: z.array(idSchema),
  steps: z.array(debriefStepSchema),
  /** Index of the first step at which the ways parted; null where they never did. */
  partedAt: z.number().int().nullable(),
  /** 0–100: cause 40, time 25, confidence 15, cautions 10, practice 10. */
  points: z.number().int().min(0).max(100),
  parts: z.array(z.strictObject({ label: messageSchema, points: z.number(), of: z.number() })),
  remarks: z.array(messageSchema),
});

export const trainingViewSchema = z.strictObject({
  seed: z.number().int(),
  title: wordsSchema.nullable(),
  story: z.strictObject({
    /** Told by whoever wrote the case; null for a drawn one. */
    told: z.strictObject({ text: wordsSchema, printer: z.string(), spool: z.string() }).nullable(),
    conditions: z.array(z.strictObject({ id: idSchema, label: z.string(), valueLabel: wordsSchema })),
    complaints: z.array(z.strictObject({ observation: idSchema, label: z.string(), value: wordsSchema })),
    /** Photos of a case of the shop's own that were checked off for practice. */
    photos: z.array(photoHashSchema),
  }),
  done: z.array(doneSchema),
  minutesSpent: z.number(),
  /** The trouble is gone; the cause is still to be named. */
  isCured: z.boolean(),
  checks: z.array(
    z.strictObject({
      observation: idSchema,
      label: z.string(),
      place: idSchema,
      kind: idSchema,
      minutes: z.number(),
      how: z.string(),
      cautions: z.array(idSchema),
    }),
  ),
  remedies: z.array(
    z.strictObject({
      id: idSchema,
      label: z.string(),
      family: idSchema,
      minutes: z.number(),
      cautions: z.array(idSchema),
    }),
  ),
  /** Texts of the cautions named above. */
  cautions: z.array(cautionTextSchema),
  causes: z.array(z.strictObject({ id: idSchema, label: z.string(), family: idSchema })),
  practices: z.array(named),
  /** The likeliest causes on what is known, where asked for. */
  odds: z
    .array(z.strictObject({ cause: idSchema, label: z.string(), probability: probabilitySchema }))
    .nullable(),
  /** The case as the screens of a real case show it, where it is worked in them. */
  case: caseViewSchema.nullable(),
  /** Why the last action was not taken; null where it was. */
  refusal: messageSchema.nullable(),
  isOver: z.boolean(),
  score: trainingScoreSchema.nullable(),
});

export type TrainingActionInput = z.input<typeof trainingActionSchema>;
export type RunAction = z.infer<typeof runActionSchema>;
export type RunActionInput = z.input<typeof runActionSchema>;
export type TrainingAction = z.infer<typeof trainingActionSchema>;
export type TrainingRun = z.infer<typeof trainingRunSchema>;
export type TrainingRunInput = z.input<typeof trainingRunSchema>;
export type TrainingView = z.infer<typeof trainingViewSchema>;
export type TrainingScore = z.infer<typeof trainingScoreSchema>;
export type DebriefStep = z.infer<typeof debriefStepSchema>;
