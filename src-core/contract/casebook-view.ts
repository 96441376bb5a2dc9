import { z } from 'zod';
import { wordsSchema } from './message.ts';
import { CASE_ORDER_IDS } from './case-orders.ts';
import { caseStateSchema, listedStateSchema } from './case-view.ts';
import { otherCaseSchema } from './case-event.ts';
import { MOST_TAGS } from './tag-limits.ts';
import {
  idSchema,
  initialsSchema,
  labelSchema,
  photoHashSchema,
  probabilitySchema,
  recordIdSchema,
  tagSchema,
  timeSchema,
} from './common.ts';

export const caseFilterSchema = z.strictObject({
  /** Words to be found in number, printer, spool, complaint, cause or notes. */
  search: z.string().trim().max(200).default(''),
  states: z.array(caseStateSchema).max(10).default([]),
  printerId: recordIdSchema.nullable().default(null),
  spoolId: recordIdSchema.nullable().default(null),
  openedBy: initialsSchema.nullable().default(null),
  practice: idSchema.nullable().default(null),
  profile: labelSchema.nullable().default(null),
  tag: tagSchema.nullable().default(null),
  cause: idSchema.nullable().default(null),
  openedFrom: timeSchema.nullable().default(null),
  openedTo: timeSchema.nullable().default(null),
  /** Closed within these times, the last one not included; an open case is not. */
  closedFrom: timeSchema.nullable().default(null),
  closedTo: timeSchema.nullable().default(null),
  /** Minutes lost and grams scrapped at least; 0 for any. */
  leastMinutes: z.number().min(0).max(100_000).default(0),
  leastGrams: z.number().min(0).max(1_000_000).default(0),
  order: z.enum(CASE_ORDER_IDS).default('newest'),
  offset: z.number().int().min(0).max(1_000_000).default(0),
  limit: z.number().int().min(1).max(200).default(50),
});

export const caseRowSchema = z.strictObject({
  caseId: recordIdSchema,
  number: z.number().int(),
  state: listedStateSchema,
  /** The number of the case that it was merged into. */
  mergedInto: z.number().int().nullable(),
  /** The newest entry: what a change of several cases has looked at. */
  revision: z.number().int(),
  openedAt: timeSchema,
  closedAt: timeSchema.nullable(),
  printerLabel: z.string().nullable(),
  spoolLabel: z.string().nullable(),
  profile: z.string().nullable(),
  tags: z.array(z.string()),
  openedBy: z.string().nullable(),
  complaint: z.string(),
  /** Confirmed causes when closed, otherwise the first candidate. */
  causeLabel: z.string(),
  isConfirmed: z.boolean(),
  minutesLost: z.number(),
  gramsScrapped: z.number(),
  isDemo: z.boolean(),
});

export const caseListSchema = z.strictObject({
  total: z.number().int(),
  /** A search found more than `total`: counting ended there. */
  isMore: z.boolean(),
  rows: z.array(caseRowSchema),
  /** How many cases fit the filter in each state, whatever states it asks for; states without any are left out. */
  byState: z.partialRecord(listedStateSchema, z.number().int()),
});

/** Names of print profiles that cases were made with, the one met last first. */
export const profileListSchema = z.strictObject({ profiles: z.array(z.string()) });

/** Tags that cases bear, from A to Z, and how many cases each. */
export const tagListSchema = z.strictObject({
  tags: z.array(z.strictObject({ tag: z.string(), cases: z.number().int() })),
});

/** One step of a replayed case: the ranking after each event. */
export const timelineSchema = z.strictObject({
  caseId: recordIdSchema,
  number: z.number().int(),
  revision: z.number().int(),
  printer: z.strictObject({ id: recordIdSchema, label: z.string() }).nullable(),
  spool: z.strictObject({ id: recordIdSchema, label: z.string() }).nullable(),
  tags: z.array(z.string()),
  /** Cases that it has to do with. */
  links: z.strictObject({
    mergedInto: otherCaseSchema.nullable(),
    merged: z.array(otherCaseSchema),
    cameFrom: otherCaseSchema.nullable(),
    ledTo: z.array(otherCaseSchema),
  }),
  /** Reasoned with today's guide, which may not be the guide of the day. */
  isSameKnowledge: z.boolean(),
  steps: z.array(
    z.strictObject({
      seq: z.number().int(),
      at: timeSchema,
      kind: idSchema,
      text: wordsSchema,
      isUndone: z.boolean(),
      /** Initials of whoever was signed in; null where nobody was. */
      by: z.string().nullable(),
      photo: photoHashSchema.nullable(),
      candidates: z.array(
        z.strictObject({ cause: idSchema, label: z.string(), probability: probabilitySchema }),
      ),
    }),
  ),
  /** The first entry that today's guide or flow has no place for, whole or in part, if any: nothing follows from what has none. */
  refusedSeq: z.number().int().nullable(),
});

/** A case that is given to another printer or spool, or gets or loses tags, as it was looked at. What is left out stays. */
const reassignedCaseSchema = z.strictObject({
  caseId: recordIdSchema,
  revision: z.number().int().min(1),
  printerId: recordIdSchema.nullable().optional(),
  spoolId: recordIdSchema.nullable().optional(),
  addTags: z.array(tagSchema).max(MOST_TAGS).optional(),
  /** Taken off before others are put on. */
  removeTags: z.array(tagSchema).max(MOST_TAGS).optional(),
});
export const reassignmentSchema = z.strictObject({ cases: z.array(reassignedCaseSchema).min(1).max(200) });

/** What came of it: what takes it back, and the cases that somebody else had changed meanwhile. */
export const reassignedSchema = z.strictObject({
  back: z.array(reassignedCaseSchema),
  overtaken: z.array(otherCaseSchema),
});

export const backupSchema = z.strictObject({
  name: z.string(),
  at: timeSchema,
  bytes: z.number().int(),
  cases: z.number().int().nullable(),
});

export type CaseFilterInput = z.input<typeof caseFilterSchema>;
export type CaseFilter = z.infer<typeof caseFilterSchema>;
export type CaseRow = z.infer<typeof caseRowSchema>;
export type CaseList = z.infer<typeof caseListSchema>;
export type Timeline = z.infer<typeof timelineSchema>;
export type Backup = z.infer<typeof backupSchema>;

/** Copies of a casebook in PostgreSQL: made by its own programs, looked at here. */
export const dumpsSchema = z.strictObject({
  /** How one is made, and put back, as lines for a terminal. */
  make: z.string(),
  putBack: z.string(),
  /** The folder they are put into; null where nobody has named it. */
  folder: z.string().nullable(),
  newest: z
    .strictObject({ name: z.string(), at: z.iso.datetime(), bytes: z.number().int().min(0) })
    .nullable(),
});
export type Dumps = z.infer<typeof dumpsSchema>;
