import { z } from 'zod';
import { idSchema, provenance } from './common-fields.ts';
import { strengthSchema } from './scale.ts';

/** Parts of the form of statements that go with any complaint. */
export const FORM_GROUPS = [
  'place',
  'course',
  'moment',
  'comparison',
  'better-worse',
  'found',
  'before',
] as const;

/**
 * Facets of a cause: the five questions a lead asks of any trouble. A facet left out is not stated, which is neutral;
 * a facet with values says that the other values that answer the same question are unlike this cause.
 */
export const FACETS = {
  /** Where the fault sits: change that, and it goes. */
  sits: [
    'printer',
    'hot-end',
    'nozzle',
    'extruder',
    'feed-path',
    'bed',
    'build-plate',
    'motion',
    'electrics',
    'firmware',
    'tool',
    'spool',
    'brand',
    'polymer',
    'profile',
    'job-file',
    'slicer',
    'room',
    'part-design',
    'part-use',
    'handling',
  ],
  /** What it arises after. */
  after: [
    'new-spool',
    'other-material',
    'nozzle-change',
    'hot-end-work',
    'extruder-work',
    'motion-work',
    'electrics-work',
    'bed-work',
    'plate-cleaning',
    'profile-change',
    'slicer-update',
    'firmware-change',
    'new-file',
    'machine-moved',
    'room-change',
    'host-change',
    'collision',
    'jam',
    'handling',
    'interrupted-print',
    'hot-idle',
    'long-storage',
    'drying',
    'weather-change',
    'rebuild',
    'speed-raised',
    'wear',
  ],
  /** When in a job, a session or over weeks it shows. */
  when: [
    'at-once',
    'first-layer',
    'after-minutes',
    'after-hours',
    'at-a-height',
    'at-change',
    'on-load',
    'on-unload',
    'at-start',
    'at-end',
    'on-top-layers',
    'after-pause',
    'now-and-then',
    'worse-over-weeks',
    'suddenly',
    'only-warm',
    'only-cold',
    'heating-up',
    'in-use',
  ],
  /** Where on the part, the bed or the machine it shows. */
  where: [
    'everywhere',
    'one-side-of-part',
    'one-side-of-bed',
    'one-spot-of-bed',
    'one-axis',
    'one-diagonal',
    'one-height',
    'repeats-with-height',
    'corners',
    'small-features',
    'overhangs',
    'large-flat-parts',
    'tall-parts',
    'seam',
    'travel-moves',
    'one-tool',
    'far-from-fan',
    'outer-walls',
    'top-faces',
    'some-parts-on-bed',
    'head-positions',
  ],
  /** What makes it better. The opposite then makes it worse. */
  better: [
    'hotter',
    'cooler',
    'hotter-bed',
    'cooler-bed',
    'slower',
    'faster',
    'lower-acceleration',
    'less-fan',
    'more-fan',
    'warmer-room',
    'cooler-room',
    'door-open',
    'more-retraction',
    'less-retraction',
    'more-flow',
    'less-flow',
    'drying',
    'washing-plate',
    'lower-nozzle',
    'higher-nozzle',
    'brim-or-glue',
    'cleaning-nozzle',
    'larger-nozzle',
    'by-hand-help',
    'restart',
    'retightening',
    'more-tension',
    'less-tension',
    'longer-layer-time',
  ],
} as const;
export type Facet = keyof typeof FACETS;

const FACET_NAMES = Object.keys(FACETS) as Facet[];

/** How it runs over days: a cause that names this says nothing of the moment in a job, nor the other way round. */
const COURSE: readonly string[] = ['now-and-then', 'worse-over-weeks', 'suddenly'];
/** Places of the bed and of the machine, apart from places on the part. */
const PLACES_OF_THE_BED: readonly string[] = [
  'one-side-of-bed',
  'one-spot-of-bed',
  'some-parts-on-bed',
  'head-positions',
];
const PARTS_OF_THE_MACHINE: readonly string[] = ['one-axis', 'one-diagonal', 'one-tool'];

/**
 * The question that a value of a facet ("when.suddenly") answers. `when` and `where` hold several: who says that a fault is
 * tied to one axis has not said that it is nowhere in particular on the part.
 */
export function questionOf(key: string): string {
  const dot = key.indexOf('.');
  const facet = key.slice(0, dot);
  const value = key.slice(dot + 1);
  if (facet === 'when') return COURSE.includes(value) ? 'when: course' : 'when: moment';
  if (facet === 'where') {
    if (PLACES_OF_THE_BED.includes(value)) return 'where: bed';
    return PARTS_OF_THE_MACHINE.includes(value) ? 'where: machine' : 'where: part';
  }
  return facet === 'worse' ? 'better' : facet;
}

/** How often a cause arises right after a change: mostly is in 55 of 100 cases, the others lie between that and any cause. */
export const AFTER_GRADES = ['mostly', 'often', 'sometimes'] as const;
export type AfterGrade = (typeof AFTER_GRADES)[number];

/** Facets as a cause's file states them. */
export const facetsSchema = z.strictObject({
  sits: z.array(z.enum(FACETS.sits)).min(1).optional(),
  /** By change, most typical first. A change left out is one that this cause has nothing to do with. */
  after: z
    .partialRecord(z.enum(FACETS.after), z.enum(AFTER_GRADES))
    .refine((given) => Object.keys(given).length > 0, 'name a change, or leave "after" out')
    .optional(),
  when: z.array(z.enum(FACETS.when)).min(1).optional(),
  where: z.array(z.enum(FACETS.where)).min(1).optional(),
  better: z.array(z.enum(FACETS.better)).min(1).optional(),
  /** Makes it worse. */
  worse: z.array(z.enum(FACETS.better)).min(1).optional(),
});

const FACET_VALUES = new Set([
  ...FACET_NAMES.flatMap((facet) => FACETS[facet].map((value) => `${facet}.${value}`)),
  ...FACETS.better.map((value) => `worse.${value}`),
]);

/**
 * One row of the table an expert reads: with a cause of these facets accounting for the complaint, how often would this
 * observation be made by somebody who looks?
 */
export const facetTableSchema = z.strictObject({
  id: idSchema,
  /** By facet value, written "sits.spool" or "better.hotter". Of several that fit, the one furthest from `notStated` counts. */
  given: z.record(
    z.string().refine((key) => FACET_VALUES.has(key), 'write a facet and its value, like "sits.spool"'),
    strengthSchema,
  ),
  /** With a cause that answers the question of a value that speaks for it, but has none of the values given. */
  otherwise: strengthSchema,
  /** With a cause that does not state the facet: neutral. */
  notStated: strengthSchema,
  /** A known condition that says the same: counts as this observation, so that nothing is counted twice. */
  saidBy: z.strictObject({ condition: idSchema, values: z.array(idSchema).min(1) }).optional(),
  ...provenance,
});
export type FacetTable = z.infer<typeof facetTableSchema>;
