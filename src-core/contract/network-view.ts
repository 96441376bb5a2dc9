import { z } from 'zod';
import { timeSchema } from './common.ts';
import { wordsSchema } from './message.ts';

/** How what goes over the network is kept from others: by a certificate of the station's own, by one that was given, or not at all. */
export const NETWORK_SECURITIES = ['own-authority', 'given-certificate', 'plain-http'] as const;

/** The door for tablets and phones, as it stands. */
export const networkSchema = z.strictObject({
  isOpen: z.boolean(),
  /** It was said when the program was started: the switch cannot change it. */
  isSaidAtStart: z.boolean(),
  security: z.enum(NETWORK_SECURITIES),
  /** "https://heron.local:4443", the best first; none while it is closed. */
  addresses: z.array(z.string()),
  /** What devices install to know this station; null where it has no authority of its own, or is closed. */
  root: z
    .strictObject({
      /** What a device lists it as. */
      called: z.string(),
      /** SHA-256, "AB:CD:…". */
      fingerprint: z.string(),
      until: timeSchema,
      /** The page that hands it out; null where that could not be opened. */
      page: z.string().nullable(),
    })
    .nullable(),
  /** What somebody should see to, null where all is well. */
  problem: wordsSchema.nullable(),
});

export type Network = z.infer<typeof networkSchema>;
