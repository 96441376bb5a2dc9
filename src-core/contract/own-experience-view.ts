import { z } from 'zod';
import { idSchema, recordIdSchema, timeSchema } from './common.ts';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

/** Whether the shop's own closed cases move the guide's odds: not, as they come, or as they stood at a time. */
export const EXPERIENCE_MODES = ['off', 'on', 'frozen'] as const;

export const ownExperienceChoiceSchema = z
  .strictObject({
    mode: z.enum(EXPERIENCE_MODES),
    /** Frozen: cases closed up to then count. Null otherwise. */
    until: timeSchema.nullable(),
    /** Not only how often causes come, but also how often each shows what was looked for. */
    links: z.boolean().default(false),
  })
  .refine(({ mode, until }) => (mode === 'frozen') === (until !== null), texts.frozenTime);

export type OwnExperienceChoice = z.infer<typeof ownExperienceChoiceSchema>;

/** While nobody has said. */
export const NOT_COUNTED: OwnExperienceChoice = { mode: 'off', until: null, links: false };

/** One cause: the guide beside the shop's own cases. */
const causeExperienceSchema = z.strictObject({
  cause: idSchema,
  label: z.string(),
  guidePerHundred: z.number(),
  confirmed: z.number().int(),
  /** Cases that the guide would have expected of these. */
  expected: z.number(),
  timesOdds: z.number(),
  low: z.number(),
  high: z.number(),
});

/** How often a cause shows an observation: the guide beside the shop's own answers, as chances (0–1). */
const linkExperienceSchema = z.strictObject({
  cause: idSchema,
  causeLabel: z.string(),
  observation: idSchema,
  observationLabel: z.string(),
  guide: z.number(),
  own: z.number(),
  low: z.number(),
  high: z.number(),
  seen: z.number().int(),
  of: z.number().int(),
});

export const ownExperienceSchema = z.strictObject({
  choice: ownExperienceChoiceSchema,
  revision: z.number().int(),
  /** Closed cases with a cause of the guide that count, and those closed since where it is frozen. */
  cases: z.number().int(),
  closedSince: z.number().int(),
  /** Closed with a cause that the guide does not have: material for whoever writes it. */
  namedByHand: z.array(z.strictObject({ label: z.string(), cases: z.number().int() })),
  isDemo: z.boolean(),
  printerId: recordIdSchema.nullable(),
  /** Most changed first. */
  rows: z.array(causeExperienceSchema),
  /** Links that were answered often enough in cases of one confirmed cause, most changed first, with how many there are. */
  links: z.array(linkExperienceSchema),
  linkCount: z.number().int(),
});

export type OwnExperience = z.infer<typeof ownExperienceSchema>;
