import { messageSchema, wordsSchema } from './message.ts';
import { z } from 'zod';
import { sourceSchema } from '../knowledge/schema.ts';
import { agentSchema } from '../knowledge/service-schema.ts';
import { idSchema } from './common.ts';
import { FIT_VERDICTS } from './fit-verdicts.ts';
import { fileReadingSchema } from './job-report.ts';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

/** What a part has to bear in use. */
export const applicationSchema = z
  .strictObject({
    /** Highest temperature of the part in service, °C. */
    serviceTemperatureC: z.number().min(-40).max(300),
    /** Lowest temperature of the part in service, °C; null where nobody said. */
    lowestServiceTemperatureC: z.number().min(-60).max(300).nullable().default(null),
    steadyLoad: z.enum(['none', 'light', 'heavy']).default('none'),
    impact: z.enum(['none', 'knocks', 'blows']).default('none'),
    isOutdoors: z.boolean().default(false),
    /** What wets it for long. */
    agents: z.array(agentSchema).max(6).default([]),
    sliding: z.enum(['none', 'some', 'steady']).default('none'),
    stiffness: z.enum(['any', 'rigid', 'springy', 'flexible', 'rubbery']).default('any'),
    looks: z.enum(['any', 'clear', 'smooth']).default('any'),
    contact: z.enum(['none', 'skin', 'food']).default('none'),
    /** Polymer of the moulded part that it stands in for. */
    standsInFor: idSchema.nullable().default(null),
  })
  .refine((use) => (use.lowestServiceTemperatureC ?? use.serviceTemperatureC) <= use.serviceTemperatureC, {
    path: ['lowestServiceTemperatureC'],
    message: texts.lowestAboveHighest,
  });

export const DEMANDS = [
  'heat',
  'steady-load',
  'impact',
  'light',
  'water',
  'chemicals',
  'sliding',
  'stiffness',
  'looks',
  'contact',
  'stand-in',
] as const;
const fitVerdictSchema = z.enum(FIT_VERDICTS);

/** How far a material is from what is needed; positive is to spare. Low and high span what is known of it. */
export const fitMarginSchema = z.discriminatedUnion('kind', [
  /** `wanted` is what it has to be at least. */
  z.strictObject({ kind: z.literal('kelvin'), low: z.number(), high: z.number(), wanted: z.number() }),
  /** On the scale poor, fair, good, very good. */
  z.strictObject({ kind: z.literal('grades'), steps: z.number().int() }),
  /** Times what is needed: 1 and more is inside. */
  z.strictObject({ kind: z.literal('times'), low: z.number(), high: z.number() }),
]);

/** One demand set against one material. */
export const judgementSchema = z.strictObject({
  demand: z.enum(DEMANDS),
  /** What is demanded, in words. */
  label: messageSchema,
  verdict: fitVerdictSchema,
  reason: z.array(messageSchema).readonly(),
  margin: fitMarginSchema.nullable(),
  /** Of the value that it rests on; null where there is none. */
  source: sourceSchema.nullable(),
  confidence: z.enum(['low', 'fair', 'high']).nullable(),
});

export const materialFitSchema = z.strictObject({
  polymer: idSchema,
  label: z.string(),
  verdict: fitVerdictSchema,
  /** How hard it is to print, in the guide's words. */
  printing: z.string().nullable(),
  judgements: z.array(judgementSchema),
});

const madeOfSchema = z.strictObject({ polymer: idSchema, filler: idSchema.default('none') });

export const fitQuestionSchema = z.strictObject({
  application: applicationSchema,
  /** Filler that every polymer is judged with. */
  filler: idSchema.default('none'),
  /** What a part that failed in this use is made of. */
  failedPart: madeOfSchema.nullable().default(null),
});

export const fitReportSchema = z.strictObject({
  /** Best first. */
  materials: z.array(materialFitSchema),
  cautions: z.array(z.strictObject({ id: idSchema, label: z.string(), text: z.string() })),
  failedPart: z
    .strictObject({
      fit: materialFitSchema,
      /** Causes that the use makes likelier for this material, most first. */
      pointsTo: z.array(
        z.strictObject({ cause: idSchema, label: z.string(), timesOdds: z.number(), because: wordsSchema }),
      ),
      /** Conditions for a case, with their reasons. */
      readings: z.array(fileReadingSchema),
    })
    .nullable(),
});

export type Application = z.infer<typeof applicationSchema>;
export type Demand = (typeof DEMANDS)[number];
export type FitMargin = z.infer<typeof fitMarginSchema>;
export type Judgement = z.infer<typeof judgementSchema>;
export type MaterialFit = z.infer<typeof materialFitSchema>;
export type FitQuestion = z.infer<typeof fitQuestionSchema>;
export type FitReport = z.infer<typeof fitReportSchema>;
