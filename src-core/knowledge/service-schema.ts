import { z } from 'zod';
import { idSchema, provenance, text } from './common-fields.ts';

/** How well a material does something, worst first. */
export const MATERIAL_GRADES = ['poor', 'fair', 'good', 'very-good'] as const;
const gradedSchema = z.strictObject({ grade: z.enum(MATERIAL_GRADES), ...provenance });

/** What may wet a part in service: lasting contact at room temperature. */
export const AGENTS = ['water', 'oilsAndFuels', 'alcohols', 'acids', 'alkalis', 'solvents'] as const;
export const agentSchema = z.enum(AGENTS);

/** A grade of impact that holds from `downToC` up to the freezing point; what is poor stays poor below it. */
const coldImpactSchema = z.strictObject({
  grade: z.enum(MATERIAL_GRADES),
  downToC: z.number().min(-60).max(0),
  ...provenance,
});

/** How a polymer does in service, where its sheet says nothing in grades; the id is the polymer's. */
export const serviceSchema = z.strictObject({
  id: idSchema,
  agents: z.partialRecord(agentSchema, gradedSchema),
  slidingWear: gradedSchema.optional(),
  impactInCold: coldImpactSchema.optional(),
  /** Stiffness in bending over grades, and for nylon from moist to dry. */
  flexuralModulusGPa: z
    .strictObject({ low: z.number().gt(0).max(20), high: z.number().gt(0).max(20), ...provenance })
    .refine((range) => range.low <= range.high, 'write low ≤ high')
    .optional(),
  /** How clear a print can be made. */
  clarity: gradedSchema.optional(),
  /** How well the lines can be smoothed away. */
  smoothing: gradedSchema.optional(),
});

/** The best grade that a polymer keeps with a filler in it, or what only the maker of the filament can say. */
const mixedSchema = z.union([
  z.strictObject({ atMost: z.enum(MATERIAL_GRADES), ...provenance }),
  z.strictObject({ dependsOn: text, ...provenance }),
]);

/** What a filler does to any polymer in service; the id is the filler's. What is left out is not known. */
export const mixtureSchema = z.strictObject({
  id: idSchema,
  ultraviolet: mixedSchema.optional(),
  slidingWear: mixedSchema.optional(),
  agents: z.partialRecord(agentSchema, mixedSchema),
});

const figureSchema = z.strictObject({ value: z.number().gt(0).max(300), ...provenance });

/** What heat in service asks of any material. In one file only. */
export const serviceHeatSchema = z.strictObject({
  /** Kelvin that the heat deflection should stand above the service temperature, by steady load. */
  reserveK: z.strictObject({ none: figureSchema, light: figureSchema, heavy: figureSchema }),
  /** Temperature of a dark part in the sun. */
  darkInTheSunC: figureSchema,
});
export type ServiceHeat = z.infer<typeof serviceHeatSchema>;

export type MaterialGrade = (typeof MATERIAL_GRADES)[number];
export type Agent = z.infer<typeof agentSchema>;
export type ServiceData = z.infer<typeof serviceSchema>;
export type Mixture = z.infer<typeof mixtureSchema>;
