import { z } from 'zod';
import { causeSchema, linkTableSchema, mechanismSchema, practiceSchema } from './cause-schema.ts';
import { label } from './common-fields.ts';
import { conditionSchema } from './condition-schema.ts';
import { facetTableSchema } from './facets-schema.ts';
import { jobLimitsSchema } from './job-limits-schema.ts';
import { materialSchema, waterSchema } from './material-schema.ts';
import { machineStatesSchema } from './machine-states-schema.ts';
import { maintenanceTaskSchema, nozzleWearSchema } from './maintenance-schema.ts';
import { meltingSchema } from './melting-schema.ts';
import { observationSchema } from './observation-schema.ts';
import { cautionSchema, makeSafeSchema, remedySchema } from './remedy-schema.ts';
import { mixtureSchema, serviceHeatSchema, serviceSchema } from './service-schema.ts';
import { barrierSchema, desiccantSchema, spoolBodySchema, spoolPlaceSchema } from './spool-schema.ts';
import { lessonSchema, scenarioSchema, trainingTopicSchema } from './training-schema.ts';
import { wordsSchema } from './words-schema.ts';

export { idSchema, sourceSchema } from './common-fields.ts';
export * from './link-schema.ts';
export * from './observation-schema.ts';
export * from './cause-schema.ts';
export * from './remedy-schema.ts';
export * from './material-schema.ts';
export * from './spool-schema.ts';
export * from './condition-schema.ts';
export * from './training-schema.ts';

/** One file of knowledge/: any of the lists, of one topic. */
export const knowledgeFileSchema = z.strictObject({
  topic: label,
  conditions: z.array(conditionSchema).optional(),
  materials: z.array(materialSchema).optional(),
  cautions: z.array(cautionSchema).optional(),
  practices: z.array(practiceSchema).optional(),
  mechanisms: z.array(mechanismSchema).optional(),
  observations: z.array(observationSchema).optional(),
  causes: z.array(causeSchema).optional(),
  /** How often each cause brings an observation about, by observation. */
  linkTables: z.array(linkTableSchema).optional(),
  /** How likely a pattern or comparison is, by the facets of what accounts for the complaint. */
  facetTables: z.array(facetTableSchema).optional(),
  remedies: z.array(remedySchema).optional(),
  water: z.array(waterSchema).optional(),
  service: z.array(serviceSchema).optional(),
  mixtures: z.array(mixtureSchema).optional(),
  desiccants: z.array(desiccantSchema).optional(),
  barriers: z.array(barrierSchema).optional(),
  spoolBodies: z.array(spoolBodySchema).optional(),
  places: z.array(spoolPlaceSchema).optional(),
  trainingTopics: z.array(trainingTopicSchema).optional(),
  scenarios: z.array(scenarioSchema).optional(),
  lessons: z.array(lessonSchema).optional(),
  maintenanceTasks: z.array(maintenanceTaskSchema).optional(),
  nozzleWear: z.array(nozzleWearSchema).optional(),
  /** These in one file only. */
  words: wordsSchema.optional(),
  makeSafe: makeSafeSchema.optional(),
  melting: meltingSchema.optional(),
  serviceHeat: serviceHeatSchema.optional(),
  machineStates: machineStatesSchema.optional(),
  jobLimits: jobLimitsSchema.optional(),
});

export type KnowledgeFile = z.infer<typeof knowledgeFileSchema>;
