import { z } from 'zod';
import {
  alsoCalledSchema,
  formerlySchema,
  idSchema,
  label,
  provenance,
  sourceSchema,
  text,
} from './common-fields.ts';
import { familySchema, whenSchema } from './link-schema.ts';
import { strengthProbability, strengthSchema } from './scale.ts';

export const HAZARDS = [
  'heat',
  'fumes',
  'solvent',
  'fibre-dust',
  'mains',
  'moving-parts',
  'flammable',
  'hot-water',
  'contact',
  'failing-part',
  'sharp',
  'lifting',
  'battery',
  'electrostatic',
  'glass',
  'stored-energy',
] as const;

export const hazardSchema = z.enum(HAZARDS);

export const cautionSchema = z.strictObject({
  id: idSchema,
  label,
  hazards: z.array(hazardSchema).min(1),
  text,
  source: sourceSchema,
});

export const stepSchema = z.strictObject({ do: text, cautions: z.array(idSchema).default([]) });

const removalSchema = z
  .strictObject({
    cause: idSchema,
    chance: strengthSchema,
    /** Chance where the new part is of the same kind and make as the old one: design, make and fit stay what they were. */
    withSameKind: strengthSchema.optional(),
    ...provenance,
  })
  .refine(
    ({ chance, withSameKind }) =>
      withSameKind === undefined || strengthProbability(withSameKind) <= strengthProbability(chance),
    'a part of the same kind never helps more often than any other: "withSameKind" is at most "chance"',
  );

export const remedySchema = z.strictObject({
  id: idSchema,
  label,
  family: familySchema,
  formerly: formerlySchema,
  alsoCalled: alsoCalledSchema,
  /** What a step works with that can hurt; each needs a caution on some step. */
  involves: z.array(hazardSchema).default([]),
  /** What it changes, so that of a try is asked which part went in, or how far the setting was taken. */
  acts: z.enum(['part', 'setting']).optional(),
  removes: z.array(removalSchema).min(1),
  minutes: z.strictObject({
    handsOn: z.number().gt(0).max(1440),
    waiting: z.number().min(0).max(10080).default(0),
    /** Until one knows whether it worked: the job or the hours that prove it, waiting like the rest. */
    proving: z.number().min(0).max(10080).default(0),
  }),
  parts: z.array(label).default([]),
  tools: z.array(label).default([]),
  /** Only where these conditions do not contradict it. */
  when: whenSchema.optional(),
  /** Only where those conditions are known to hold: for parts that few machines have. */
  onlyWhenKnown: z.boolean().default(false),
  /** Not proposed while one of these observations is there for sure: it would hide the fault, make it worse, or cannot be done. */
  notWith: z.array(idSchema).default([]),
  /** Remedies that come before this one where they apply: milder ones, or ones without which it makes no sense. */
  after: z.array(idSchema).default([]),
  /** What may go wrong while doing it, how often, and the work to put it right. */
  risk: z
    .strictObject({ of: text, chance: strengthSchema, minutes: z.number().gt(0).max(1440), ...provenance })
    .optional(),
  steps: z.array(stepSchema).min(1).max(20),
  verify: text,
  stopAndCall: text,
});

/** What to do at a dangerous sign, in this order, before any question is asked. */
export const makeSafeSchema = z
  .array(z.strictObject({ do: text, ...provenance }))
  .min(1)
  .max(10);

export type Hazard = z.infer<typeof hazardSchema>;
export type Caution = z.infer<typeof cautionSchema>;
export type Remedy = z.infer<typeof remedySchema>;
export type MakeSafe = z.infer<typeof makeSafeSchema>;
