import { z } from 'zod';
import { MELT_ZONES } from '../contract/melt-zones.ts';
import { idSchema, provenance } from './common-fields.ts';

const positive = z.number().gt(0);
const figureSchema = z.strictObject({ value: positive, ...provenance });
const isRising = ({ low, likely, high }: { low: number; likely: number; high: number }) =>
  low <= likely && likely <= high;
const points = { low: positive, likely: positive, high: positive };
/** 10, 50 and 90 % points. */
const pointsSchema = z
  .strictObject({ ...points, ...provenance })
  .refine(isRising, 'write low ≤ likely ≤ high');

/** What hot ends melt, how melts thin with heat, and what jams a bore. In one file only. */
export const meltingSchema = z.strictObject({
  /** By class of melt zone: its length, and the largest flow of PLA that it melts, mm³/s. */
  zones: z.record(
    z.enum(MELT_ZONES),
    z.strictObject({ lengthMm: figureSchema, plaFlowMm3PerS: pointsSchema }),
  ),
  /** The flow of other polymers as a share of PLA's, and of those that nobody gives one. */
  shareOfPla: z.array(
    z
      .strictObject({ polymer: idSchema, ...points, ...provenance })
      .refine(isRising, 'write low ≤ likely ≤ high'),
  ),
  shareOfOthers: pointsSchema,
  /** Flow activation energy of melts. */
  activationKjPerMol: z.array(
    z
      .strictObject({ polymer: idSchema, low: positive, high: positive, ...provenance })
      .refine(({ low, high }) => low <= high, 'write low ≤ high'),
  ),
  thermalDiffusivityM2PerS: pointsSchema,
  /** Bores that nozzles are commonly sold with, smallest first. */
  boresMm: z.strictObject({
    values: z
      .array(positive.max(2))
      .min(1)
      .refine((bores) => bores.every((one, at) => at === 0 || one > (bores[at - 1] ?? 0)), 'smallest first'),
    ...provenance,
  }),
  /** Nozzle temperature from which a lined hot end is spoken of. */
  linerWatchedFromC: figureSchema,
  /** Flow to expect with a nozzle while nobody says what the job asks; at most the highest, however wide the nozzle. */
  usualFlow: z.strictObject({
    mm3PerS: positive,
    nozzleMm: positive.max(2),
    highestMm3PerS: positive.max(200),
    ...provenance,
  }),
  bridging: z.strictObject({
    /** How sharply it sets in as the ratio of bore to particle falls. */
    steepness: figureSchema,
    /** Bore over particle at which half the risk is reached, with 30 % of filler. */
    halfRiskRatio: figureSchema,
    /** The risk that is accepted where nobody says otherwise is one in so many. */
    acceptedOneIn: z.strictObject({ value: z.number().gt(1), ...provenance }),
    /** Length of chopped fibre in filament where nobody says. */
    fibreLengthMm: figureSchema,
  }),
});
export type Melting = z.infer<typeof meltingSchema>;
export type MeltZone = (typeof MELT_ZONES)[number];
