import { z } from 'zod';
import { caseStateSchema, timerSchema } from './case-view.ts';
import { recordIdSchema, timeSchema } from './common.ts';

/** A case that waits for somebody, as far as one must know it from across the room. */
export const openCaseSchema = z.strictObject({
  caseId: recordIdSchema,
  number: z.number().int(),
  state: caseStateSchema,
  printerId: recordIdSchema.nullable(),
  complaint: z.string(),
  openedAt: timeSchema,
  openedBy: z.string().nullable(),
  /** When it was parked or handed over; null while it is worked on. */
  waitingSince: timeSchema.nullable(),
  /** Why it waits, as it was parked or handed over; null where nothing was written. */
  reason: z.string().nullable(),
  /** Initials of whoever it was handed to; null for the lead, whoever that is. */
  handedTo: z.string().nullable(),
  /** The part that it waits for, and the day by which somebody looks again (ISO date). */
  part: z.string().nullable(),
  dueOn: z.string().nullable(),
  /** Danger signs that were found, while nobody qualified has taken over. */
  dangerSigns: z.array(z.string()),
  /** A wait that was begun, and of which remedy; it may be over. */
  timer: timerSchema.extend({ remedy: z.string() }).nullable(),
  isDemo: z.boolean(),
});

export const benchSchema = z.strictObject({
  printers: z.array(
    z.strictObject({ id: recordIdSchema, label: z.string(), note: z.string(), isDemo: z.boolean() }),
  ),
  /** Oldest first. */
  openCases: z.array(openCaseSchema),
  closedCases: z.number().int(),
});

/** A closed case of this printer or this spool: what it was, and what cured it. */
export const pastCaseSchema = z.strictObject({
  caseId: recordIdSchema,
  number: z.number().int(),
  closedAt: timeSchema,
  isSamePrinter: z.boolean(),
  isSameSpool: z.boolean(),
  complaint: z.string(),
  cause: z.string(),
  /** The remedy after which the fault was gone; null where it was closed without one. */
  cure: z.string().nullable(),
});

export type Bench = z.infer<typeof benchSchema>;
export type OpenCase = z.infer<typeof openCaseSchema>;
export type PastCase = z.infer<typeof pastCaseSchema>;
