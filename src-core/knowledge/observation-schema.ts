import { z } from 'zod';
import { alsoCalledSchema, formerlySchema, idSchema, label, provenance, text } from './common-fields.ts';
import { FORM_GROUPS } from './facets-schema.ts';
import { MACHINE_STATES } from './machine-states-schema.ts';
import { linkStrengthSchema, whenSchema } from './link-schema.ts';

/** Where on the way from spool to finished part an observation is met. */
export const PLACES = [
  'spool-and-feed',
  'loading-and-purge',
  'hot-end-and-nozzle',
  'free-air',
  'first-layer',
  'walls-and-tops',
  'seams-and-strings',
  'shape-and-size',
  'bonds-and-strength',
  'motion-and-noise',
  'temperatures-and-alarms',
  'electrics-and-controls',
  'multi-material',
  'profile-and-file',
  'part-in-service',
] as const;

export const placeSchema = z.enum(PLACES);

export const OBSERVATION_KINDS = ['sign', 'pattern', 'comparison', 'hand-test', 'measurement'] as const;

/**
 * What a general statement is about: where trouble shows on a printed part, on its walls and above, or how it shows while the machine
 * prints. The first is not asked of a blockage or an alarm, the second not of a first layer either, the third not of a part that
 * fails in use.
 */
export const SPEAKS_OF = ['printed-part', 'walls', 'printing'] as const;

export const checkSchema = z.strictObject({
  how: text,
  with: z.array(label).max(12).default([]),
  minutes: z.number().gt(0).max(2880),
  machine: z.enum(MACHINE_STATES),
  countsAsPresent: text,
  nullRulesOut: text,
  cautions: z.array(idSchema).default([]),
  /** The part under test does not survive. */
  destroysPart: z.boolean().default(false),
});

export const bandSchema = z.strictObject({
  id: idSchema,
  label,
  /** Lower limit, included; open below when missing. */
  from: z.number().optional(),
  /** Upper limit, not included; open above when missing. */
  below: z.number().optional(),
});

export const observationSchema = z.strictObject({
  id: idSchema,
  label,
  ask: text,
  kind: z.enum(OBSERVATION_KINDS),
  place: placeSchema,
  /** Part of the form of statements that it is offered in, usable with any complaint. */
  group: z.enum(FORM_GROUPS).optional(),
  /** Observations that are not worth asking once this one is there: it implies them, or rules them out. */
  settles: z.array(idSchema).default([]),
  /** Observations that are not worth asking once this one is known not to be there, or its measured value to be the normal one. */
  settlesWhenAbsent: z.array(idSchema).default([]),
  /** Not asked unless one of these was found: of a case about something else it makes no sense. Empty: it goes with any. */
  onlyAbout: z.array(idSchema).default([]),
  /** A general statement that makes sense of one sort of trouble only, see `SPEAKS_OF`; it goes with any when missing. */
  speaksOf: z.enum(SPEAKS_OF).optional(),
  /** Remedies whose success this comparison has shown already: one of them is next. */
  shownCure: z.array(idSchema).default([]),
  /** Not asked once one of these remedies was tried: whoever did it has seen the answer, and put it right. */
  seenInTrying: z.array(idSchema).default([]),
  /** Remedies of which this says that the new part was of the same kind as the old one. */
  saysSameKind: z.array(idSchema).default([]),
  /** Checks or remedies that a lead turns to on hearing this while no cause stands out: the change said is looked at first. */
  leadsTo: z.array(idSchema).default([]),
  /** Never asked by itself: only where something that was said leads to it. */
  onlyWhenLedTo: z.boolean().default(false),
  /** Not asked where these conditions are known not to hold: of a machine or use that does not have it. */
  askedWhen: whenSchema.optional(),
  formerly: formerlySchema,
  alsoCalled: alsoCalledSchema,
  /** From least to most; the first is "none". Two-valued when missing. */
  grades: z
    .array(z.strictObject({ id: idSchema, label }))
    .min(3)
    .max(4)
    .optional(),
  /** Measured value; the bands play the part of grades, the first band being the normal one. */
  measure: z
    .strictObject({
      quantity: label,
      unit: z.string().min(1).max(16),
      min: z.number(),
      max: z.number(),
      bands: z.array(bandSchema).min(2).max(5),
    })
    .optional(),
  /** How often it is met when nothing in this guide is behind it. */
  leak: z.strictObject({ strength: linkStrengthSchema, ...provenance }),
  check: checkSchema,
  /** May be picked as "what is wrong" at intake. */
  complaint: z.boolean().default(false),
  /** Says little by itself ("ugly print"): counts only while nothing more telling is complained of. */
  unspecific: z.boolean().default(false),
  /** Danger: power off before anything else. */
  danger: z.boolean().default(false),
  /** Place among the danger signs when they are asked: what is met most and hurts first, then as they come. */
  dangerRank: z.int().min(1).max(99).optional(),
  /** Alternative text of the drawing that shows it. */
  drawing: text.optional(),
});

export type Observation = z.infer<typeof observationSchema>;
