import type { Words as Said } from '../words/message.ts';
import type { GraphModel } from '../inference/index.ts';
import type { Conditions } from './conditions.ts';
import type { FacetTable } from './facets-schema.ts';
import type { FormerIds } from './former-ids.ts';
import type { JobLimits } from './job-limits-schema.ts';
import type { MachineStates } from './machine-states-schema.ts';
import type { MaintenanceTask, NozzleWear } from './maintenance-schema.ts';
import type { Melting } from './melting-schema.ts';
import type {
  Barrier,
  Caution,
  Cause,
  Condition,
  Desiccant,
  MakeSafe,
  Material,
  Mechanism,
  Observation,
  Practice,
  Remedy,
  SpoolBody,
  SpoolPlace,
  Lesson,
  Scenario,
  TrainingTopic,
  Water,
} from './schema.ts';
import type { Mixture, ServiceData, ServiceHeat } from './service-schema.ts';
import type { Words } from './words-schema.ts';

/** Everything the guide knows, compiled once and never changed. Maps keep the order of the files. */
export interface Knowledge {
  /** Content hash: two guides with the same version hold the same words and numbers. */
  readonly version: string;
  readonly conditions: ReadonlyMap<string, Condition>;
  readonly materials: ReadonlyMap<string, Material>;
  readonly cautions: ReadonlyMap<string, Caution>;
  readonly practices: ReadonlyMap<string, Practice>;
  readonly mechanisms: ReadonlyMap<string, Mechanism>;
  readonly observations: ReadonlyMap<string, Observation>;
  readonly causes: ReadonlyMap<string, Cause>;
  readonly remedies: ReadonlyMap<string, Remedy>;
  /** Observations that speak of what accounts for a complaint, with how likely they are by facet; by observation id. */
  readonly facetTables: ReadonlyMap<string, FacetTable>;
  /** What ids of earlier guides are called today. */
  readonly former: FormerIds;
  /** Water in polymers, by the polymer's id. */
  readonly water: ReadonlyMap<string, Water>;
  /** How polymers do in service, by the polymer's id. */
  readonly service: ReadonlyMap<string, ServiceData>;
  /** What fillers do to polymers in service, by the filler's id. */
  readonly mixtures: ReadonlyMap<string, Mixture>;
  readonly desiccants: ReadonlyMap<string, Desiccant>;
  readonly barriers: ReadonlyMap<string, Barrier>;
  readonly spoolBodies: ReadonlyMap<string, SpoolBody>;
  /** Where a spool may be, and what the air is like there. */
  readonly places: ReadonlyMap<string, SpoolPlace>;
  /** What a trainee is to be good at, written practice cases, and the course. */
  readonly trainingTopics: ReadonlyMap<string, TrainingTopic>;
  readonly scenarios: ReadonlyMap<string, Scenario>;
  readonly lessons: ReadonlyMap<string, Lesson>;
  /** What a printer needs from time to time. */
  readonly maintenanceTasks: ReadonlyMap<string, MaintenanceTask>;
  /** How fillers wear a nozzle, by the filler's id. */
  readonly nozzleWear: ReadonlyMap<string, NozzleWear>;
  /** What to do at a dangerous sign. This and the next two throw where the files have none; the checks ask for all three. */
  readonly makeSafe: MakeSafe;
  /** What hot ends melt, and what jams a bore. */
  readonly melting: Melting;
  /** What heat in service asks of any material. */
  readonly serviceHeat: ServiceHeat;
  /** Beyond these a job file is remarked on. */
  readonly jobLimits: JobLimits;
  /** What it takes to bring a machine into the state that a check wants. */
  readonly machineStates: MachineStates;
  /** Words of the trade, for searching and for reading free words. */
  readonly words: Words;
  /** The network with the priors of no known condition. Indices follow the maps' order. */
  readonly graph: GraphModel;
  readonly causeIndex: ReadonlyMap<string, number>;
  readonly mechanismIndex: ReadonlyMap<string, number>;
  readonly observationIndex: ReadonlyMap<string, number>;
  /** Level names of an observation, least first: ["absent", "present"], its grades, or its bands. */
  levelsOf(observationId: string): readonly string[];
  /** Prior probability of each cause (by index) under the known conditions, and which shifts moved it. */
  priorsUnder(conditions: Conditions): {
    readonly priors: readonly number[];
    readonly shifts: readonly PriorShift[];
  };
}

/** One rule that moved a cause's prior in a case. */
export interface PriorShift {
  readonly cause: string;
  readonly timesOdds: number;
  readonly because: Said;
  readonly source: Said;
}
