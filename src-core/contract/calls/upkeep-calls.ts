import { z } from 'zod';
import { wordsSchema } from '../message.ts';
import { workIdSchema } from '../watch.ts';
import { networkSchema } from '../network-view.ts';
import { accessSchema, deviceInputSchema, invitationSchema, meSchema, pinSchema } from '../access-view.ts';
import { backupSchema, dumpsSchema } from '../casebook-view.ts';
import { recordIdSchema } from '../common.ts';
import { shopSchema } from '../shop-records.ts';
import { atTheStation, everywhere, nothing, screens, thePerson } from './shared.ts';
import { contractTexts } from '../../words/en/contract.ts';

const { texts } = contractTexts;

/** The demo, backups, who is let in and by which door. */
export const upkeepCalls = {
  'demo:load': {
    input: z.strictObject({ workId: workIdSchema.nullable().default(null) }),
    output: shopSchema,
    callers: everywhere,
  },
  'demo:remove': { input: nothing, output: shopSchema, callers: everywhere },
  'backup:list': {
    input: nothing,
    output: z.strictObject({
      backups: z.array(backupSchema),
      folder: z.string(),
      /** The casebook is gone or cannot be read and there is no way back: an empty one may be begun. */
      isCasebookMissing: z.boolean(),
      /** Where another program makes the copies; null where Beadwright makes its own. */
      dumps: dumpsSchema.nullable(),
      /** Something about the backups that should be seen to, such as a full disk. */
      warning: wordsSchema.nullable(),
    }),
    callers: everywhere,
  },
  'casebook:begin-empty': {
    input: nothing,
    /** The folder in which the lost casebook's backups are now. */
    output: z.strictObject({ setAside: z.string() }),
    callers: screens,
  },
  'backup:make': { input: nothing, output: backupSchema, callers: everywhere },
  'backup:restore': {
    input: z.strictObject({ name: z.string().regex(/^[A-Za-z0-9._-]{1,120}$/, texts.noBackupName) }),
    output: z.strictObject({ restored: z.string(), keptAs: z.string() }),
    callers: everywhere,
  },
  'access:me': { input: nothing, output: meSchema, callers: screens },
  /** On the device that asks; wrong PINs are slowed. */
  'access:sign-in': { input: thePerson.extend({ pin: pinSchema }), output: meSchema, callers: atTheStation },
  'access:sign-out': { input: nothing, output: meSchema, callers: atTheStation },
  'access:list': { input: nothing, output: accessSchema, callers: screens },
  /** Makes a code that lets one device in, once and soon. */
  'access:invite': { input: deviceInputSchema, output: invitationSchema, callers: screens },
  'access:change-device': {
    input: deviceInputSchema.extend({ deviceId: recordIdSchema }),
    output: accessSchema,
    callers: screens,
  },
  /** For good: a device that is to come back joins with a new code. */
  'access:revoke-device': {
    input: z.strictObject({ deviceId: recordIdSchema }),
    output: accessSchema,
    callers: screens,
  },
  /** Null takes the PIN away. */
  'access:set-pin': {
    input: thePerson.extend({ pin: pinSchema.nullable() }),
    output: accessSchema,
    callers: screens,
  },
  /** The door for tablets and phones. */
  'network:read': { input: nothing, output: networkSchema, callers: screens },
  'network:switch': {
    input: z.strictObject({ isOpen: z.boolean() }),
    output: networkSchema,
    callers: screens,
  },
} as const;
