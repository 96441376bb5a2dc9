import { wordsSchema } from './message.ts';
import { z } from 'zod';
import { initialsSchema, labelSchema, recordIdSchema, timeSchema } from './common.ts';
import { ROLES } from './roles.ts';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

const roleSchema = z.enum(ROLES);

/** Figures only: it is typed with gloves on, on a tablet. Guessing is slowed, not made impossible by length. */
export const pinSchema = z.string().regex(/^\d{4,12}$/, texts.pin);

/** What a device is let in as. */
export const deviceInputSchema = z.strictObject({
  /** "Tablet at Heron". */
  label: labelSchema,
  role: roleSchema,
  /** The printer whose page it opens with. */
  printerId: recordIdSchema.nullable().default(null),
});

export const deviceSchema = deviceInputSchema.required().extend({
  id: recordIdSchema,
  joinedAt: timeSchema,
  /** Null until it asked for something. */
  seenAt: timeSchema.nullable(),
  /** Initials of whoever is signed in on it. */
  signedIn: initialsSchema.nullable(),
});

/** A code that waits for a device; the code itself is shown once, when it is made. */
export const invitationSchema = z.strictObject({
  code: z.string(),
  expiresAt: timeSchema,
  /** Addresses that lead a device in, the code inside; none where the station is not open to the network. */
  addresses: z.array(z.string()),
});

export const auditEntrySchema = z.strictObject({
  at: timeSchema,
  /** "Tablet at Heron (RK)". */
  who: wordsSchema,
  what: wordsSchema,
});

export const accessSchema = z.strictObject({
  devices: z.array(deviceSchema),
  /** People who have a PIN. */
  withPin: z.array(recordIdSchema),
  /** The newest first. */
  audit: z.array(auditEntrySchema),
  /** Where devices of the network find the station; none while it is open to this machine only. */
  addresses: z.array(z.string()),
});

/** Who asks, and as what. */
export const meSchema = z.strictObject({
  /** The machine on which Beadwright runs, or a device that has joined. */
  kind: z.enum(['owner', 'device']),
  /** What the device is called. */
  label: z.string().nullable(),
  /** What its calls are held against; null where everything may be called. */
  role: roleSchema.nullable(),
  person: z.strictObject({ id: recordIdSchema, initials: initialsSchema }).nullable(),
  /** Who can sign in here: people with a PIN. */
  people: z.array(z.strictObject({ id: recordIdSchema, initials: initialsSchema })),
});

export type Access = z.infer<typeof accessSchema>;
export type Device = z.infer<typeof deviceSchema>;
export type DeviceInput = z.input<typeof deviceInputSchema>;
export type Invitation = z.infer<typeof invitationSchema>;
export type Me = z.infer<typeof meSchema>;
