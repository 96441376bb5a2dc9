import { z } from 'zod';
import { findingValueSchema, idSchema } from './common.ts';
import { wordsSchema } from './message.ts';
import { MELT_ZONES } from './melt-zones.ts';

/** The machine and material that a job is to run on, as far as known. */
export const jobMachineSchema = z.strictObject({
  nozzleMm: z.number().min(0.1).max(2).nullable().default(null),
  polymer: idSchema.nullable().default(null),
  meltZone: z.enum(MELT_ZONES).nullable().default(null),
  filamentDiameterMm: z.number().min(1).max(5).default(1.75),
  /** Filler by weight, as far as a spool may say it. */
  fillerPercent: z.number().min(0).max(80).nullable().default(null),
});

const placeSchema = z.strictObject({ line: z.number().int(), layer: z.number().int() });

/** A condition or a measured finding that follows from a file, with its reason. */
export const fileReadingSchema = z.strictObject({
  kind: z.enum(['condition', 'finding']),
  id: idSchema,
  label: z.string(),
  value: findingValueSchema,
  valueLabel: wordsSchema,
  because: wordsSchema,
});

/** What a job file asks of the machine. Times are computed without acceleration. */
export const jobReportSchema = z.strictObject({
  lines: z.number().int(),
  bytes: z.number().int(),
  seconds: z.number(),
  /** What the file itself says it takes, s; null where it does not. */
  statedSeconds: z.number().nullable(),
  /** Name of the print profile, as the file says it; null where it does not. */
  profile: z.string().nullable(),
  filamentMm: z.number(),
  grams: z.number().nullable(),
  layerCount: z.number().int(),
  travelMm: z.number(),
  retractions: z.number().int(),
  readings: z.array(fileReadingSchema),
  remarks: z.array(z.strictObject({ text: wordsSchema, at: placeSchema.nullable() })),
  /** Largest flow that the hot end usually melts of this, mm³/s; null where it is not known. */
  capacity: z.strictObject({ low: z.number(), likely: z.number(), high: z.number() }).nullable(),
  /** Layers for a plot, lumped together where there are many; the largest peak of a lump stays. */
  layers: z.array(
    z.strictObject({
      layer: z.number().int(),
      zMm: z.number(),
      seconds: z.number(),
      meanFlowMm3PerS: z.number(),
      peakFlowMm3PerS: z.number(),
      fanShare: z.number(),
      nozzleC: z.number().nullable(),
    }),
  ),
});

/** What a log shows of one heater: "T" the nozzle, "B" the plate. */
const heaterReportSchema = z.strictObject({
  heater: z.enum(['T', 'B']),
  readings: z.number().int(),
  /** Null where the log has no times that can be used. */
  seconds: z.number().nullable(),
  remarks: z.array(wordsSchema),
  /** For a plot; by number of the reading where there are no times. */
  points: z.array(z.strictObject({ seconds: z.number(), actualC: z.number(), targetC: z.number() })),
});

/** What a log of temperatures shows, and which observations of the guide it answers. */
export const temperatureReportSchema = z.strictObject({
  heaters: z.array(heaterReportSchema),
  findings: z.array(fileReadingSchema),
});

export type JobMachineInput = z.input<typeof jobMachineSchema>;
export type JobReport = z.infer<typeof jobReportSchema>;
export type FileReading = z.infer<typeof fileReadingSchema>;
export type TemperatureReport = z.infer<typeof temperatureReportSchema>;
export type HeaterReport = z.infer<typeof heaterReportSchema>;
