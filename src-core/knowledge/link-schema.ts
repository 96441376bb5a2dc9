import { z } from 'zod';
import { idSchema, provenance } from './common-fields.ts';
import { strengthSchema } from './scale.ts';

/**
 * Strength of a link to a graded observation: the chance of at least each grade above the first,
 * for example {slight: usually, heavy: sometimes}. A plain strength serves two-valued observations.
 */
export const linkStrengthSchema = z.union([strengthSchema, z.record(idSchema, strengthSchema)]);

export const linkSchema = z.strictObject({ to: idSchema, strength: linkStrengthSchema, ...provenance });

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

/** A test on conditions: value, list of values, or range. All listed conditions must hold. */
export const whenSchema = z.record(
  idSchema,
  z.union([
    z.string(),
    z.array(z.string()).min(1),
    z.strictObject({ atLeast: z.number().optional(), below: z.number().optional() }),
  ]),
);

export type LinkStrength = z.infer<typeof linkStrengthSchema>;
export type When = z.infer<typeof whenSchema>;
