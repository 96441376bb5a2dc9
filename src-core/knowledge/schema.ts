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
import { facetsSchema, facetTableSchema, FORM_GROUPS } from './facets-schema.ts';
import { strengthSchema } from './scale.ts';
import { meltingSchema } from './melting-schema.ts';
import { mixtureSchema, serviceHeatSchema, serviceSchema } from './service-schema.ts';
import { wordsSchema } from './words-schema.ts';

export { idSchema, sourceSchema } from './common-fields.ts';

/**
 * Strength of a link to a graded observation: the chance of at least each grade above the first,
 * for example {slight: usually, heavy: sometimes}. A plain strength serves two-valued observations.
 */
export const linkStrengthSchema = z.union([strengthSchema, z.record(idSchema, strengthSchema)]);

export const FAMILIES = [
  'moisture',
  'blockage',
  'feed',
  'filament',
  'temperature',
  'cooling',
  'first-layer',
  'motion',
  'settings',
  'electrics',
  'multi-material',
  'geometry',
  'people',
  'service',
  'unknown',
] as const;
export const familySchema = z.enum(FAMILIES);

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

/** What the machine must be doing while a check is made. */
export const MACHINE_STATES = [
  'any',
  'off',
  'cold',
  'motors-off',
  'hot',
  'printing',
  'opened',
  'part-in-hand',
] as const;

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

/** A test on conditions: value, list of values, or range. All listed conditions must hold. */
export const whenSchema = z.record(
  idSchema,
  z.union([
    z.string(),
    z.array(z.string()).min(1),
    z.strictObject({ atLeast: z.number().optional(), below: z.number().optional() }),
  ]),
);

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
  /** Remedies whose success this comparison has shown already: one of them is next. */
  shownCure: z.array(idSchema).default([]),
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
  /** Alternative text of the drawing that shows it. */
  drawing: text.optional(),
});

export const priorShiftSchema = z.strictObject({
  when: whenSchema,
  /** Left out while this condition is known: that one says the same better. */
  unlessKnown: idSchema.optional(),
  /** Factor on the prior odds while the condition is known to hold. */
  timesOdds: z.number().gt(0).max(1000),
  because: text,
  ...provenance,
});

export const linkSchema = z.strictObject({ to: idSchema, strength: linkStrengthSchema, ...provenance });

export const causeSchema = z.strictObject({
  id: idSchema,
  label,
  family: familySchema,
  formerly: formerlySchema,
  alsoCalled: alsoCalledSchema,
  summary: text,
  /** How to tell it from its rivals, in an experienced hand's words. */
  tellApart: text.optional(),
  prior: z.strictObject({ perHundredCases: z.number().gt(0).max(60), ...provenance }),
  movedBy: z.array(priorShiftSchema).default([]),
  /** Mechanisms it sets going. */
  drives: z.array(linkSchema).default([]),
  /** Observations it shows directly. */
  shows: z.array(linkSchema).default([]),
  /** Shows any complaint at all with this strength: for the cause that this guide does not know. */
  showsAnyComplaint: z.strictObject({ strength: strengthSchema, ...provenance }).optional(),
  practices: z.array(idSchema).default([]),
  /** Where it sits, what it arises after, when it shows, what makes it better or worse. What is not stated is neutral. */
  facets: facetsSchema.optional(),
});

/**
 * How often each cause alone brings an observation about, in one table: written from what leads expect, read and amended as a
 * whole. It stands in the place of links that causes have to this observation.
 */
export const linkTableSchema = z.strictObject({
  id: idSchema,
  from: z.record(idSchema, linkStrengthSchema),
  /** How often it is met with nothing of this guide behind it, in the place of the observation's own. */
  leak: linkStrengthSchema.optional(),
  ...provenance,
});

export const mechanismSchema = z.strictObject({
  id: idSchema,
  label,
  formerly: formerlySchema,
  physics: text,
  leak: z.strictObject({ strength: strengthSchema, ...provenance }),
  shows: z.array(linkSchema).min(1),
});

export const practiceSchema = z.strictObject({
  id: idSchema,
  label,
  formerly: formerlySchema,
  habit: text,
  better: text,
});

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

export const remedySchema = z.strictObject({
  id: idSchema,
  label,
  family: familySchema,
  formerly: formerlySchema,
  alsoCalled: alsoCalledSchema,
  /** What a step works with that can hurt; each needs a caution on some step. */
  involves: z.array(hazardSchema).default([]),
  removes: z.array(z.strictObject({ cause: idSchema, chance: strengthSchema, ...provenance })).min(1),
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

/** A property of a material: a number or range with unit, or words; always with its source. */
export const propertySchema = z.strictObject({
  value: z.union([z.number(), z.string().min(1).max(300)]).optional(),
  low: z.number().optional(),
  high: z.number().optional(),
  unit: z.string().max(16).optional(),
  ...provenance,
});

export const MATERIAL_PROPERTIES = [
  'dryingTempC',
  'dryingHours',
  'dryingMaxTempC',
  'residualMoisturePercent',
  'equilibriumWaterPercent',
  'saturationWaterPercent',
  'nozzleTempC',
  'plateTempC',
  'chamberTempC',
  'partFanPercent',
  'shrinkagePercent',
  'glassTransitionC',
  'heatDeflectionC',
  'heatDeflection18C',
  'continuousUseC',
  'shoreHardnessA',
  'smallestNozzleMm',
  'creep',
  'ultraviolet',
  'chemicals',
  'impact',
  'abrasiveness',
  'emissions',
  'surface',
  'difficulty',
  'storage',
  'effectOnMoisture',
  'effectOnStrength',
  'dryingLimitWhy',
] as const;
export type MaterialProperty = (typeof MATERIAL_PROPERTIES)[number];

export const materialSchema = z.strictObject({
  id: idSchema,
  label,
  kind: z.enum(['polymer', 'filler']),
  alsoCalled: alsoCalledSchema,
  summary: text,
  properties: z.partialRecord(z.enum(MATERIAL_PROPERTIES), propertySchema),
});

export const conditionSchema = z.strictObject({
  id: idSchema,
  label,
  formerly: formerlySchema,
  alsoCalled: alsoCalledSchema,
  ask: text,
  /** Allowed values of a choice, in a meaningful order. */
  values: z
    .array(z.strictObject({ id: idSchema, label, formerly: formerlySchema, alsoCalled: alsoCalledSchema }))
    .min(2)
    .optional(),
  /** Range of a number, in the unit named. */
  number: z.strictObject({ unit: z.string().min(1).max(16), min: z.number(), max: z.number() }).optional(),
});

/**
 * A number known only as a range. `low`, `likely` and `high` are the 10, 50 and 90 % points: of ten grades, one lies below
 * and one above. Everything worked out from it is worked out for all three.
 */
export const rangeSchema = z
  .strictObject({ low: z.number().gt(0), likely: z.number().gt(0), high: z.number().gt(0), ...provenance })
  .refine((range) => range.low <= range.likely && range.likely <= range.high, 'write low ≤ likely ≤ high');

/** How a polymer takes up water; the id is the polymer's. Contents are water per dry polymer, counted from bone dry. */
export const waterSchema = z.strictObject({
  id: idSchema,
  /** Equilibrium content in air of 23 °C and 50 % relative humidity. */
  equilibriumAt50Percent: rangeSchema,
  /** c of content = a RH^c: 1 is Henry's law, more bends the curve upwards. */
  humidityExponent: z.strictObject({ value: z.number().min(1).max(4), ...provenance }),
  /** Diffusivity of water in the polymer at 23 °C, m²/s. */
  diffusivityAt23: rangeSchema,
  activationEnergyKjPerMol: rangeSchema,
  /** Content above which steam troubles a print through a 0.4 mm nozzle at 5 mm³/s. */
  printingLimitPercent: rangeSchema,
  densityKgPerM3: z.strictObject({ value: z.number().min(500).max(3000), ...provenance }),
});

/** A drying agent: how much water it holds in equilibrium with air of 25 °C. */
export const desiccantSchema = z.strictObject({
  id: idSchema,
  label,
  /** Points of the isotherm, drier air first: relative humidity in percent, gram of water per 100 g of dry agent. */
  holds: z
    .array(z.strictObject({ atPercentRh: z.number().min(0).max(100), gPer100g: z.number().min(0) }))
    .min(2),
  regenerate: text,
  ...provenance,
});

/** A wall or film: water that passes a square metre in a day in the standard test at 38 °C and 90 % relative humidity. */
export const barrierSchema = z.strictObject({ id: idSchema, label, gPerM2Day: rangeSchema });

/** What the filament is wound on, and the highest temperature it bears for hours. */
export const spoolBodySchema = z.strictObject({
  id: idSchema,
  label,
  highestTempC: z.strictObject({ value: z.number().min(30).max(300), ...provenance }),
});

/** Where a spool may be, and the air it has there: that of the room, a closed one of its own, or a dryer's. */
export const spoolPlaceSchema = z.strictObject({
  id: idSchema,
  label,
  /** The value of the condition `storage` that it means for a case. */
  storage: idSchema,
  air: z.enum(['room', 'closed', 'dryer']),
  /** Relative humidity inside a closed place, percent: with fresh and with spent desiccant. */
  closedHumidityPercent: z
    .strictObject({ fresh: z.number().min(0).max(100), spent: z.number().min(0).max(100), ...provenance })
    .optional(),
});

/** One file of knowledge/: any of the lists, of one topic. */
export const knowledgeFileSchema = z.strictObject({
  topic: label,
  conditions: z.array(conditionSchema).optional(),
  materials: z.array(materialSchema).optional(),
  cautions: z.array(cautionSchema).optional(),
  practices: z.array(practiceSchema).optional(),
  mechanisms: z.array(mechanismSchema).optional(),
  observations: z.array(observationSchema).optional(),
  causes: z.array(causeSchema).optional(),
  /** How often each cause brings an observation about, by observation. */
  linkTables: z.array(linkTableSchema).optional(),
  /** How likely a pattern or comparison is, by the facets of what accounts for the complaint. */
  facetTables: z.array(facetTableSchema).optional(),
  remedies: z.array(remedySchema).optional(),
  water: z.array(waterSchema).optional(),
  service: z.array(serviceSchema).optional(),
  mixtures: z.array(mixtureSchema).optional(),
  desiccants: z.array(desiccantSchema).optional(),
  barriers: z.array(barrierSchema).optional(),
  spoolBodies: z.array(spoolBodySchema).optional(),
  places: z.array(spoolPlaceSchema).optional(),
  /** These in one file only. */
  words: wordsSchema.optional(),
  makeSafe: makeSafeSchema.optional(),
  melting: meltingSchema.optional(),
  serviceHeat: serviceHeatSchema.optional(),
});

export type KnowledgeFile = z.infer<typeof knowledgeFileSchema>;
export type Observation = z.infer<typeof observationSchema>;
export type Cause = z.infer<typeof causeSchema>;
export type Mechanism = z.infer<typeof mechanismSchema>;
export type Practice = z.infer<typeof practiceSchema>;
export type Remedy = z.infer<typeof remedySchema>;
export type Caution = z.infer<typeof cautionSchema>;
export type Material = z.infer<typeof materialSchema>;
export type Condition = z.infer<typeof conditionSchema>;
export type LinkTable = z.infer<typeof linkTableSchema>;
export type LinkStrength = z.infer<typeof linkStrengthSchema>;
export type When = z.infer<typeof whenSchema>;
export type MakeSafe = z.infer<typeof makeSafeSchema>;
export type Hazard = z.infer<typeof hazardSchema>;
export type Water = z.infer<typeof waterSchema>;
export type Desiccant = z.infer<typeof desiccantSchema>;
export type Barrier = z.infer<typeof barrierSchema>;
export type SpoolBody = z.infer<typeof spoolBodySchema>;
export type SpoolPlace = z.infer<typeof spoolPlaceSchema>;
