import { z } from 'zod';
import {
  conditionsSchema,
  findingValueSchema,
  idSchema,
  initialsSchema,
  labelSchema,
  noteSchema,
  photoHashSchema,
  recordIdSchema,
  tagSchema,
} from './common.ts';
import { wordsSchema } from './message.ts';
import { LONGEST_FILE_NAME, MOST_FILES } from './read-file-limits.ts';
import { MOST_TAGS } from './tag-limits.ts';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

/** What a remedy did. "Came back" is better for a while; "partly" helped one part, place or spool only. */
export const OUTCOMES = ['cured', 'better', 'partly', 'came-back', 'not-cured', 'worse'] as const;
export const outcomeSchema = z.enum(OUTCOMES);

/** Which part went in, compared with the old one. */
export const TRIED_WITH = ['same-kind', 'another-kind', 'from-a-good-machine'] as const;
/** How far a setting was taken. */
export const TRIED_REACH = ['one-small-step', 'whole-range'] as const;
/** How something was tried. Left out where nobody said; entries of before 27 November 2026 lack it. */
const howTried = { with: z.enum(TRIED_WITH).optional(), reach: z.enum(TRIED_REACH).optional() };

/** What is known when a case is opened. */
export const intakeSchema = z.strictObject({
  printerId: recordIdSchema.nullable().default(null),
  spoolId: recordIdSchema.nullable().default(null),
  /** Initials of whoever opens it. */
  openedBy: initialsSchema.nullable().default(null),
  /** What the slicer's settings it was made with are called; left out where nobody said, and before 27 November 2026. */
  profile: labelSchema.optional(),
  /** Names of the job files and logs that were read for it, the last of their path; left out before 28 November 2026. */
  files: z.array(z.string().trim().min(1).max(LONGEST_FILE_NAME)).max(MOST_FILES).optional(),
  conditions: conditionsSchema.default({}),
  /** Where a condition was worked out and not said by somebody: by condition, in a sentence. */
  because: z.record(idSchema, wordsSchema).optional(),
  /** What is wrong: observations found present, with their level where graded. */
  complaints: z
    .array(z.strictObject({ observation: idSchema, value: findingValueSchema }))
    .min(1, texts.atLeastOneComplaint)
    .max(12),
  /** Read from a job file or a log: findings, though nobody complains of them. */
  measured: z
    .array(z.strictObject({ observation: idSchema, value: findingValueSchema }))
    .max(40)
    .optional(),
  /** Remedies that were tried before the case was opened, without curing it. */
  tried: z
    .array(z.strictObject({ remedy: idSchema, outcome: z.enum(['better', 'not-cured']), ...howTried }))
    .max(20)
    .optional(),
  words: noteSchema.default(''),
});

/** An intake as it is logged: with what the host knew besides. */
const loggedIntakeSchema = intakeSchema.extend({
  /** How much more often this shop meets a cause than the guide says: factors on the odds, by cause, while that counts. */
  ownExperience: z.record(idSchema, z.number().min(0.001).max(1000)).optional(),
  /** How often a cause shows an observation in this shop, where own answers count. */
  ownLinks: z
    .array(
      z.strictObject({
        cause: idSchema,
        observation: idSchema,
        probability: z.number().min(0.0001).max(0.9999),
      }),
    )
    .max(1000)
    .optional(),
});

/** A cause confirmed at the end: one of the guide, or named by hand where the guide lacks it. */
export const confirmedCauseSchema = z.union([
  z.strictObject({ cause: idSchema }),
  z.strictObject({ named: labelSchema }),
]);

/** Why a remedy could not be done. */
export const COULD_NOT_REASONS = [
  'no-part',
  'no-tool',
  'not-allowed',
  'not-reachable',
  'no-time',
  'other',
] as const;

/** What a case that rests waits for. Left out where nobody said; entries of before 27 November 2026 lack them. */
const waitingFor = { part: labelSchema.optional(), dueOn: z.iso.date().optional() };

/** Another case: its number is what people say. */
export const otherCaseSchema = z.strictObject({ caseId: recordIdSchema, number: z.number().int().min(1) });
/** What a printer or spool was called when a case was given to it. */
const namedRecordSchema = z.strictObject({ id: recordIdSchema, label: labelSchema });

/** Everything that can happen to a case. The log of these, in order, is the case. */
export const caseEventSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('opened'), intake: loggedIntakeSchema }),
  /** Answer to the stop-now gate: the dangerous signs that are there, none when empty. */
  z.strictObject({ kind: z.literal('danger-answered'), present: z.array(idSchema).max(40) }),
  z.strictObject({ kind: z.literal('made-safe') }),
  /** After a danger sign: somebody qualified says so and goes on. */
  z.strictObject({ kind: z.literal('taken-over'), by: initialsSchema }),
  z.strictObject({ kind: z.literal('answered'), observation: idSchema, value: findingValueSchema }),
  z.strictObject({ kind: z.literal('could-not-tell'), observation: idSchema }),
  z.strictObject({ kind: z.literal('skipped'), observation: idSchema }),
  /** The operator chooses what to look at next. */
  z.strictObject({ kind: z.literal('jumped'), observation: idSchema }),
  z.strictObject({
    kind: z.literal('condition-set'),
    condition: idSchema,
    value: z.union([idSchema, z.number()]).nullable(),
  }),
  /** Enough checked: show what to do. */
  z.strictObject({ kind: z.literal('verdict-asked') }),
  z.strictObject({ kind: z.literal('checking-resumed') }),
  z.strictObject({ kind: z.literal('remedy-chosen'), remedy: idSchema }),
  z.strictObject({
    kind: z.literal('step-ticked'),
    step: z.number().int().min(0).max(19),
    isDone: z.boolean(),
  }),
  /** A wait begins: it is over this long after the entry was acknowledged. Another one, or the end of the remedy, takes its place. */
  z.strictObject({
    kind: z.literal('timer-set'),
    minutes: z
      .number()
      .int()
      .min(1)
      .max(14 * 24 * 60),
  }),
  z.strictObject({ kind: z.literal('timer-stopped') }),
  z.strictObject({ kind: z.literal('remedy-left') }),
  /** It is not offered again until the case begins a new round. */
  z.strictObject({
    kind: z.literal('could-not-be-done'),
    reason: z.enum(COULD_NOT_REASONS),
    note: noteSchema.default(''),
  }),
  z.strictObject({ kind: z.literal('remedy-done') }),
  z.strictObject({ kind: z.literal('verified'), outcome: outcomeSchema, ...howTried }),
  z.strictObject({
    kind: z.literal('closed'),
    causes: z.array(confirmedCauseSchema).min(1, texts.nameCause).max(4),
    practice: idSchema.nullable().default(null),
    minutesLost: z.number().min(0).max(100_000),
    gramsScrapped: z.number().min(0).max(1_000_000),
    note: noteSchema.default(''),
  }),
  /** `part` is what it waits for, `dueOn` the day by which somebody looks again. */
  z.strictObject({ kind: z.literal('parked'), note: noteSchema.default(''), ...waitingFor }),
  /** `to` are the initials of whoever goes on; the lead where nobody is named. */
  z.strictObject({
    kind: z.literal('handed-over'),
    note: noteSchema.default(''),
    to: initialsSchema.optional(),
    ...waitingFor,
  }),
  /**
   * Taken up again. The host writes `to`, whatever a caller sends; entries of before 27 November 2026 lack it: a parked case
   * came back to checking then.
   */
  z.strictObject({ kind: z.literal('resumed'), to: z.literal('where-it-was').optional() }),
  z.strictObject({ kind: z.literal('noted'), text: noteSchema.min(1) }),
  /** A photo of the fault, the part or the place, kept under this hash. */
  z.strictObject({ kind: z.literal('photographed'), photo: photoHashSchema, note: noteSchema.default('') }),
  /** The name of the print profile, said or put right after the case was opened; null where it is not known after all. */
  z.strictObject({ kind: z.literal('profile-set'), profile: labelSchema.nullable() }),
  /** It was another printer or spool; null for none, left out where that stays. Written by the host only, as are the next six. */
  z.strictObject({
    kind: z.literal('reassigned'),
    printer: namedRecordSchema.nullable().optional(),
    spool: namedRecordSchema.nullable().optional(),
  }),
  /** The lead's own words put on it, and taken off before that. */
  z.strictObject({
    kind: z.literal('tagged'),
    on: z.array(tagSchema).max(MOST_TAGS),
    off: z.array(tagSchema).max(MOST_TAGS),
  }),
  /** Two cases were one: in the one that stays, and in the one that leads to it from now on. */
  z.strictObject({ kind: z.literal('merged'), other: otherCaseSchema }),
  z.strictObject({ kind: z.literal('merged-into'), other: otherCaseSchema }),
  /** They are two after all: in both. */
  z.strictObject({ kind: z.literal('parted'), other: otherCaseSchema }),
  /** This one came from that one. */
  z.strictObject({ kind: z.literal('linked'), other: otherCaseSchema }),
  z.strictObject({ kind: z.literal('unlinked'), other: otherCaseSchema }),
  /** Takes the last event that is still in force back. */
  z.strictObject({ kind: z.literal('undone') }),
]);

export type CaseEvent = z.infer<typeof caseEventSchema>;
export type CaseEventKind = CaseEvent['kind'];
export type OtherCase = z.infer<typeof otherCaseSchema>;

/** What only the host writes, as it concerns more than the one case or names what the host knows. */
export const HOST_ONLY_KINDS: ReadonlySet<CaseEventKind> = new Set([
  'reassigned',
  'tagged',
  'merged',
  'merged-into',
  'parted',
  'linked',
  'unlinked',
]);
export type Intake = z.infer<typeof loggedIntakeSchema>;
export type IntakeInput = z.input<typeof intakeSchema>;
export type ConfirmedCause = z.infer<typeof confirmedCauseSchema>;
export type CouldNotReason = (typeof COULD_NOT_REASONS)[number];
export type Outcome = z.infer<typeof outcomeSchema>;
export type TriedWith = (typeof TRIED_WITH)[number];
export type TriedReach = (typeof TRIED_REACH)[number];
