import { z } from 'zod';
import { confirmedCauseSchema, otherCaseSchema, outcomeSchema } from './case-event.ts';
import {
  findingValueSchema,
  idSchema,
  photoHashSchema,
  probabilitySchema,
  recordIdSchema,
  timeSchema,
} from './common.ts';
import { wordsSchema } from './message.ts';

export const CASE_STATES = [
  'stop-now',
  'make-safe',
  'checking',
  'verdict',
  'remedy',
  'verification',
  'closing',
  'closed',
  'parked',
  'handed-over',
] as const;
export const caseStateSchema = z.enum(CASE_STATES);
/** As lists show cases: one that was merged into another leads there, wherever it stood. */
export const LISTED_STATES = [...CASE_STATES, 'merged'] as const;
export const listedStateSchema = z.enum(LISTED_STATES);

/** One reason for or against a candidate, in decibans (10·log10 of the likelihood ratio). */
export const reasonSchema = z.strictObject({
  finding: idSchema,
  label: z.string(),
  value: wordsSchema,
  decibans: z.number(),
});

export const candidateSchema = z.strictObject({
  cause: idSchema,
  label: z.string(),
  family: idSchema,
  probability: probabilitySchema,
  /** Before the last answer, where there was one. */
  previousProbability: probabilitySchema.nullable(),
  because: z.array(reasonSchema),
});

export const cautionViewSchema = z.strictObject({ id: idSchema, label: z.string(), text: z.string() });

/** A question to the operator, whole: what to ask, how to find out, what each answer is called. */
export const questionSchema = z.strictObject({
  observation: idSchema,
  label: z.string(),
  ask: wordsSchema,
  kind: idSchema,
  how: wordsSchema,
  tools: z.array(z.string()),
  minutes: z.number(),
  machine: idSchema,
  countsAsPresent: z.string(),
  nullRulesOut: z.string(),
  destroysPart: z.boolean(),
  cautions: z.array(cautionViewSchema),
  drawing: z.string().nullable(),
  answers: z.array(z.strictObject({ value: idSchema, label: wordsSchema })),
  measure: z
    .strictObject({ quantity: z.string(), unit: z.string(), min: z.number(), max: z.number() })
    .nullable(),
  /** What was answered before, when it is asked again. */
  answered: findingValueSchema.nullable(),
});

export const nextStepSchema = z.strictObject({
  kind: z.enum(['check', 'remedy', 'hand-over']),
  id: idSchema,
  label: wordsSchema,
  minutes: z.number(),
  expectedCostOfRepair: z.number(),
});

export const openCheckSchema = z.strictObject({
  observation: idSchema,
  label: z.string(),
  minutes: z.number(),
  /** Minutes it saves on average, its own time taken off; negative when it does not pay. */
  netValueOfInformationMinutes: z.number(),
});

export const remedyOfferSchema = z.strictObject({
  id: idSchema,
  label: z.string(),
  repairProbability: probabilitySchema,
  minutesHandsOn: z.number(),
  minutesWaiting: z.number(),
  /** Work, standstill and parts in the shop's money; null where it has said no costs, or does not count in them. */
  price: z.number().nullable(),
  removes: z.array(z.strictObject({ cause: idSchema, label: z.string() })),
  wasTried: outcomeSchema.nullable(),
});

export const remedyViewSchema = z.strictObject({
  id: idSchema,
  label: z.string(),
  /** Null in a practice case where the guide keeps its figures to itself. */
  repairProbability: probabilitySchema.nullable(),
  minutesHandsOn: z.number(),
  /** Of drying worked out for the spool on the machine, that of slow water. */
  minutesWaiting: z.number(),
  /** Its drying figures were worked out for the spool on the machine. */
  isWorkedOut: z.boolean(),
  parts: z.array(z.string()),
  tools: z.array(z.string()),
  steps: z.array(
    z.strictObject({ text: wordsSchema, cautions: z.array(cautionViewSchema), isDone: z.boolean() }),
  ),
  verify: wordsSchema,
  stopAndCall: wordsSchema,
  /** What may go wrong while doing it; null where the guide names nothing. */
  risk: z.string().nullable(),
});

/** One line of the trail: what was said, when, and whether it is still in force. */
export const trailEntrySchema = z.strictObject({
  seq: z.number().int(),
  at: timeSchema,
  kind: idSchema,
  text: wordsSchema,
  /** The observation an answer belongs to, so that it can be asked again. */
  observation: idSchema.nullable(),
  isUndone: z.boolean(),
  /** Hash of the photo that it adds, where it adds one. */
  photo: photoHashSchema.nullable(),
  /** What of it today's guide or flow has no place for, in words; null where all of it counts. */
  noPlace: wordsSchema.nullable(),
});

export const closingSchema = z.strictObject({
  causes: z.array(z.strictObject({ cause: idSchema.nullable(), label: z.string() })),
  practice: z.strictObject({ id: idSchema, label: z.string(), better: z.string() }).nullable(),
  minutesLost: z.number(),
  gramsScrapped: z.number(),
  note: z.string(),
});

/** What marks a case as practice, and what the simulated machine shows in it. */
export const practiceMarkSchema = z.strictObject({
  title: wordsSchema.nullable(),
  /** Told by whoever wrote the case; null for a drawn one. */
  told: z.strictObject({ text: wordsSchema, printer: z.string(), spool: z.string() }).nullable(),
  minutesSpent: z.number(),
  /** The guide asks and ranks as in a real case; otherwise the trainee decides alone. */
  hasHelp: z.boolean(),
  /** What is found where one looks now: of the question, of the complaints after a remedy, of danger signs; null until one looks. */
  shown: z
    .array(
      z.strictObject({
        observation: idSchema,
        label: z.string(),
        words: wordsSchema,
        isThere: z.boolean(),
        quantity: z.string().nullable(),
      }),
    )
    .nullable(),
});

/** A wait that was begun, and when it is over. */
export const timerSchema = z.strictObject({ since: timeSchema, until: timeSchema });

const moneySchema = z.strictObject({ currency: z.string(), perWorkMinute: z.number() });

/** Everything a screen needs to draw one case. */
export const caseViewSchema = z.strictObject({
  caseId: recordIdSchema,
  number: z.number().int(),
  revision: z.number().int(),
  state: caseStateSchema,
  /** The case that this one was the same as: everything goes on there. */
  mergedInto: otherCaseSchema.nullable(),
  openedAt: timeSchema,
  openedBy: z.string().nullable(),
  printer: z.strictObject({ id: recordIdSchema, label: z.string() }).nullable(),
  spool: z.strictObject({ id: recordIdSchema, label: z.string() }).nullable(),
  /** Name of the print profile; null where nobody said. */
  profile: z.string().nullable(),
  /** Names of the job files and logs that it was opened with. */
  files: z.array(z.string()),
  tags: z.array(z.string()),
  complaints: z.array(z.strictObject({ observation: idSchema, label: z.string(), value: wordsSchema })),
  /** Of several complaints the one that the plan goes for; null where none is there any more. */
  mainComplaint: idSchema.nullable(),
  words: z.string(),
  /** Flow that it is printed at, mm³/s: as known, or what its nozzle is usually run at; null when neither is known. */
  flowMm3PerS: z.number().nullable(),
  conditions: z.array(
    z.strictObject({
      id: idSchema,
      label: z.string(),
      value: z.union([z.string(), z.number()]),
      valueLabel: wordsSchema,
      /** How it was worked out; null where somebody said it. */
      because: wordsSchema.nullable(),
    }),
  ),
  /** Labels of findings left out of the sums because those over all would be too large; nearly always none. */
  setAside: z.array(z.string()),
  candidates: z.array(candidateSchema),
  /** What else may be wrong without holding the complaint up, likeliest first. */
  background: z.array(z.strictObject({ cause: idSchema, label: z.string(), probability: probabilitySchema })),
  /** A danger sign is there: the guided path ends until somebody qualified takes over. */
  stopped: z.strictObject({ signs: z.array(z.string()), takenOverBy: z.string().nullable() }).nullable(),
  conflict: z.strictObject({
    /** Jensen's measure, log2; above zero the findings fit together worse than if unrelated. */
    bits: z.number(),
    isFlagged: z.boolean(),
    suspect: z.strictObject({ finding: idSchema, label: z.string() }).nullable(),
  }),
  next: nextStepSchema.nullable(),
  question: questionSchema.nullable(),
  otherChecks: z.array(openCheckSchema),
  remedies: z.array(remedyOfferSchema),
  remedy: remedyViewSchema.nullable(),
  /** The wait that was begun; it may be over. */
  timer: timerSchema.nullable(),
  /** What the shop's money is called and what a minute of work costs; null where it has said no costs, or does not count in them. */
  money: moneySchema.nullable(),
  suggestedClosing: z.strictObject({
    causes: z.array(idSchema),
    practices: z.array(z.strictObject({ id: idSchema, label: z.string() })),
    minutesSinceOpened: z.number(),
  }),
  closing: closingSchema.nullable(),
  trail: z.array(trailEntrySchema),
  canUndo: z.boolean(),
  dangerSigns: z.array(z.strictObject({ observation: idSchema, label: z.string() })),
  knowledgeVersion: z.string(),
  engineVersion: z.string(),
  /** Null for a real case. */
  practice: practiceMarkSchema.nullable(),
});

/** Why a cause stands where it does. */
export const whyCandidateSchema = z.strictObject({
  cause: idSchema,
  label: z.string(),
  summary: z.string(),
  tellApart: z.string().nullable(),
  priorPerHundredCases: z.number(),
  priorSource: z.string(),
  shifts: z.array(
    z.strictObject({
      because: wordsSchema,
      timesOdds: z.number(),
      decibans: z.number(),
      source: wordsSchema,
    }),
  ),
  /** That it is there, under these circumstances, before any finding. */
  prior: probabilitySchema,
  /** That it is there and raises such a complaint: what the reasons start from. */
  priorAtWork: probabilitySchema,
  reasons: z.array(reasonSchema),
  /** What the weights do not explain one by one: findings acting together. */
  remainderDecibans: z.number(),
  posterior: probabilitySchema,
  method: z.string(),
  mechanisms: z.array(
    z.strictObject({ id: idSchema, label: z.string(), physics: z.string(), probability: probabilitySchema }),
  ),
  practices: z.array(
    z.strictObject({ id: idSchema, label: z.string(), habit: z.string(), better: z.string() }),
  ),
  remedies: z.array(z.strictObject({ id: idSchema, label: z.string(), chance: probabilitySchema })),
});

/** What each answer to a check would do to the ranking. */
export const whyCheckSchema = z.strictObject({
  observation: idSchema,
  label: z.string(),
  minutes: z.number(),
  expectedCostNow: z.number(),
  expectedCostAfter: z.number(),
  answers: z.array(
    z.strictObject({
      value: idSchema,
      label: wordsSchema,
      probability: probabilitySchema,
      candidates: z.array(
        z.strictObject({
          cause: idSchema,
          label: z.string(),
          probability: probabilitySchema,
          change: z.number(),
        }),
      ),
    }),
  ),
});

export type CaseState = z.infer<typeof caseStateSchema>;
export type ListedState = z.infer<typeof listedStateSchema>;
export type CaseView = z.infer<typeof caseViewSchema>;
export type PracticeMark = z.infer<typeof practiceMarkSchema>;
export type Candidate = z.infer<typeof candidateSchema>;
export type Question = z.infer<typeof questionSchema>;
export type NextStep = z.infer<typeof nextStepSchema>;
export type RemedyOffer = z.infer<typeof remedyOfferSchema>;
export type RemedyView = z.infer<typeof remedyViewSchema>;
export type TrailEntry = z.infer<typeof trailEntrySchema>;
export type WhyCandidate = z.infer<typeof whyCandidateSchema>;
export type WhyCheck = z.infer<typeof whyCheckSchema>;
export type Closing = z.infer<typeof closingSchema>;
export type ConfirmedCauseInput = z.input<typeof confirmedCauseSchema>;
