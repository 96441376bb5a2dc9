import { z } from 'zod';
import {
  causeSchema,
  cautionSchema,
  conditionSchema,
  materialSchema,
  mechanismSchema,
  observationSchema,
  practiceSchema,
  remedySchema,
} from '../knowledge/schema.ts';

/** The guide as screens read it: the entries as they stand in the files. */
export const guideSchema = z.strictObject({
  version: z.string(),
  conditions: z.array(conditionSchema),
  materials: z.array(materialSchema),
  cautions: z.array(cautionSchema),
  practices: z.array(practiceSchema),
  mechanisms: z.array(mechanismSchema),
  observations: z.array(observationSchema),
  causes: z.array(causeSchema),
  remedies: z.array(remedySchema),
});
export type Guide = z.infer<typeof guideSchema>;
