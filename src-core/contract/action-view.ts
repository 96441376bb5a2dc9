import { z } from 'zod';
import { idSchema, initialsSchema, noteSchema, recordIdSchema, timeSchema } from './common.ts';
import { wordsSchema } from './message.ts';
import { ACTION_KINDS, ANY_FAULT, GROUPINGS } from './recurrence-choices.ts';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

/** The finding that an action is about: a thing in a group, with what both were called then. */
const findingSchema = z.strictObject({
  by: z.enum(GROUPINGS),
  /** Null: the whole shop. */
  where: z.string().min(1).max(120).nullable(),
  whereLabel: wordsSchema,
  what: z.union([idSchema, z.literal(ANY_FAULT)]),
  whatLabel: wordsSchema,
});

/** What is to be done, by whom and until when, and what it should do to the rate: 0.5 halves it. */
export const actionPlanSchema = z.strictObject({
  title: z.string().trim().min(1).max(160),
  kind: z.enum(ACTION_KINDS),
  owner: initialsSchema.nullable().default(null),
  dueOn: z.iso.date().nullable().default(null),
  expectedRatio: z.number().min(0.05).max(0.95).default(0.5),
  about: findingSchema.nullable().default(null),
});

const opened = z.strictObject({ kind: z.literal('opened'), plan: actionPlanSchema });
const later = [
  z.strictObject({
    kind: z.literal('assigned'),
    owner: initialsSchema.nullable(),
    dueOn: z.iso.date().nullable(),
  }),
  z.strictObject({ kind: z.literal('snoozed'), until: z.iso.date() }),
  z.strictObject({ kind: z.literal('dismissed'), reason: noteSchema.min(1, texts.sayWhy) }),
  /** It was done, on this day: from then on it is measured. */
  z.strictObject({ kind: z.literal('done'), on: z.iso.date() }),
  /** Taken up again after it was dismissed, snoozed or done. */
  z.strictObject({ kind: z.literal('reopened') }),
] as const;

/** Everything that can happen to an action. Its log is the action. */
export const actionEventSchema = z.discriminatedUnion('kind', [opened, ...later]);
/** What can be added to an action that is there. */
export const laterActionEventSchema = z.discriminatedUnion('kind', later);

/** Whether an action helped: cases and print hours before and after, and the ratio of the rates with exact 95 % limits. */
export const actionEffectSchema = z.strictObject({
  before: z.strictObject({ count: z.number().int(), hours: z.number() }),
  after: z.strictObject({ count: z.number().int(), hours: z.number() }),
  /** Null where neither side has a case. */
  ratio: z.number().nullable(),
  low: z.number(),
  /** Null: no upper limit. */
  high: z.number().nullable(),
  verdict: z.enum(['helped', 'made-worse', 'not-yet']),
  /** While nothing can be told: the print hours in all after it that tell the effect hoped for, and about when that is. */
  tellable: z.strictObject({ hours: z.number(), on: z.iso.date().nullable() }).nullable(),
});

export const actionSchema = z.strictObject({
  actionId: recordIdSchema,
  revision: z.number().int(),
  ...actionPlanSchema.required().shape,
  state: z.enum(['open', 'snoozed', 'dismissed', 'done']),
  openedAt: timeSchema,
  snoozedUntil: z.iso.date().nullable(),
  dismissedBecause: z.string().nullable(),
  doneOn: z.iso.date().nullable(),
  /** Due within a week, or overdue; only of open ones. */
  due: z.enum(['overdue', 'this-week', 'later']).nullable(),
  effect: actionEffectSchema.nullable(),
  isDemo: z.boolean(),
});

export const actionListSchema = z.strictObject({
  /** Open ones first, the earliest due before the others. */
  actions: z.array(actionSchema),
  /** Entries of the log that this version cannot read. */
  unreadable: z.number().int(),
  today: z.iso.date(),
});

export type ActionPlan = z.infer<typeof actionPlanSchema>;
export type ActionPlanInput = z.input<typeof actionPlanSchema>;
export type ActionEvent = z.infer<typeof actionEventSchema>;
export type LaterActionEvent = z.infer<typeof laterActionEventSchema>;
export type Action = z.infer<typeof actionSchema>;
export type ActionList = z.infer<typeof actionListSchema>;
export type ActionEffect = z.infer<typeof actionEffectSchema>;
