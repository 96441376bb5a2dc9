import { z } from 'zod';
import { alsoCalledSchema, idSchema, label, provenance, text } from './common-fields.ts';

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

export const materialSchema = z.strictObject({
  id: idSchema,
  label,
  kind: z.enum(['polymer', 'filler']),
  alsoCalled: alsoCalledSchema,
  summary: text,
  properties: z.partialRecord(z.enum(MATERIAL_PROPERTIES), propertySchema),
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

export type MaterialProperty = (typeof MATERIAL_PROPERTIES)[number];
export type Material = z.infer<typeof materialSchema>;
export type Water = z.infer<typeof waterSchema>;
