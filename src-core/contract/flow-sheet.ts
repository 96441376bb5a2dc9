import { z } from 'zod';
import { idSchema } from './common.ts';
import { FLOW_NUMBERS, type FlowNumber } from './flow-numbers.ts';
import { MELT_ZONES } from './melt-zones.ts';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

const numberOf = (field: FlowNumber) => z.number().min(FLOW_NUMBERS[field].min).max(FLOW_NUMBERS[field].max);

/** What is laid down with what; null is not known. */
export const flowQuestionSchema = z
  .strictObject({
    lineWidthMm: numberOf('lineWidthMm'),
    layerHeightMm: numberOf('layerHeightMm'),
    speedMmPerS: numberOf('speedMmPerS'),
    filamentDiameterMm: numberOf('filamentDiameterMm').default(1.75),
    nozzleMm: numberOf('nozzleMm'),
    polymer: idSchema.nullable().default(null),
    meltZone: z.enum(MELT_ZONES).nullable().default(null),
    fillerPercent: numberOf('fillerPercent').nullable().default(null),
    particleLengthMm: numberOf('particleLengthMm').nullable().default(null),
    nozzleC: numberOf('nozzleC').nullable().default(null),
  })
  .refine(({ lineWidthMm, layerHeightMm }) => lineWidthMm >= layerHeightMm, {
    path: ['lineWidthMm'],
    message: texts.narrowLine,
  });

const rangeSchema = z.strictObject({ low: z.number(), likely: z.number(), high: z.number() });
export const BRIDGING_LEVELS = ['low', 'raised', 'high'] as const;

/** What follows from it. Null is not known, or not asked. */
export const flowSheetSchema = z.strictObject({
  /** Cross-section of the bead with half-round ends, and width times height. */
  beadAreaMm2: z.number(),
  plainAreaMm2: z.number(),
  flowMm3PerS: z.number(),
  plainFlowMm3PerS: z.number(),
  feedMmPerS: z.number(),
  metresPerHour: z.number(),
  gramsPerHour: z.number().nullable(),
  /** Time in the melt zone. */
  residenceSeconds: z.number().nullable(),
  /** Time to come to nine tenths of the wall's temperature. */
  heatingSeconds: rangeSchema,
  /** Largest flow that the hot end melts of this, mm³/s, the flow as a share of it, and the speed that uses it up. */
  capacityMm3PerS: rangeSchema.nullable(),
  shareOfCapacity: rangeSchema.nullable(),
  fastestMmPerS: rangeSchema.nullable(),
  /** Pressure through common bores at the same flow, times that through the bore asked about. */
  bores: z.array(z.strictObject({ boreMm: z.number(), timesPressure: z.number() })),
  /** Viscosity at a higher temperature, times that at the temperature asked about. */
  hotter: z
    .strictObject({
      byC: z.number(),
      lowestTimesViscosity: z.number(),
      highestTimesViscosity: z.number(),
    })
    .nullable(),
  bridging: z
    .strictObject({
      level: z.enum(BRIDGING_LEVELS),
      smallestBoreMm: z.number(),
      /** The next common bore from there up; null above the largest. */
      nextBoreMm: z.number().nullable(),
    })
    .nullable(),
  /** What can hurt somebody who follows the sheet: with more heat, or with another nozzle. */
  cautions: z.array(
    z.strictObject({ id: idSchema, label: z.string(), text: z.string(), about: z.enum(['heat', 'nozzle']) }),
  ),
});

export type FlowQuestion = z.infer<typeof flowQuestionSchema>;
export type FlowQuestionInput = z.input<typeof flowQuestionSchema>;
export type FlowSheet = z.infer<typeof flowSheetSchema>;
export type FlowRange = z.infer<typeof rangeSchema>;
