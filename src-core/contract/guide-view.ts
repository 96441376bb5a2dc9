import { z } from 'zod';
import {
  barrierSchema,
  causeSchema,
  cautionSchema,
  conditionSchema,
  makeSafeSchema,
  materialSchema,
  mechanismSchema,
  observationSchema,
  practiceSchema,
  remedySchema,
  spoolBodySchema,
  spoolPlaceSchema,
} from '../knowledge/schema.ts';
import { maintenanceTaskSchema } from '../knowledge/maintenance-schema.ts';
import { wordsSchema } from '../knowledge/words-schema.ts';

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
  places: z.array(spoolPlaceSchema),
  maintenanceTasks: z.array(maintenanceTaskSchema),
  spoolBodies: z.array(spoolBodySchema),
  barriers: z.array(barrierSchema),
  /** Nozzles that are commonly sold, narrowest first, and the flow to expect with each. */
  nozzles: z.array(z.strictObject({ boreMm: z.number(), usualFlowMm3PerS: z.number() })),
  /** What to do at a dangerous sign, in this order. */
  makeSafe: makeSafeSchema,
  words: wordsSchema,
});
export type Guide = z.infer<typeof guideSchema>;
