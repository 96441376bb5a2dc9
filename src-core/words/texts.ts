import { caseLogTexts } from './en/case-log.ts';
import { auditTexts } from './en/audit.ts';
import { casebookTroubleTexts } from './en/casebook-trouble.ts';
import { circumstanceTexts } from './en/circumstances.ts';
import { documentTexts } from './en/documents.ts';
import { drillTexts } from './en/drills.ts';
import { contractTexts } from './en/contract.ts';
import { faultTexts } from './en/faults.ts';
import { findingTexts } from './en/findings.ts';
import { dryingTexts } from './en/drying.ts';
import { figureTexts } from './en/figures.ts';
import { fitTexts } from './en/fit.ts';
import { flowTexts } from './en/flow.ts';
import { importFaultTexts } from './en/import-faults.ts';
import { jobFaultTexts } from './en/job-faults.ts';
import { listTexts } from './en/lists.ts';
import { networkDoorTexts } from './en/network-door.ts';
import { refusalTexts } from './en/refusals.ts';
import { temperatureTexts } from './en/temperatures.ts';
import { spoolLogTexts } from './en/spool-log.ts';
import { trainingTexts } from './en/training.ts';
import { valueTexts } from './en/values.ts';

const CATALOGUES = [
  auditTexts,
  caseLogTexts,
  casebookTroubleTexts,
  circumstanceTexts,
  documentTexts,
  drillTexts,
  contractTexts,
  faultTexts,
  findingTexts,
  dryingTexts,
  figureTexts,
  fitTexts,
  flowTexts,
  importFaultTexts,
  jobFaultTexts,
  listTexts,
  networkDoorTexts,
  refusalTexts,
  temperatureTexts,
  spoolLogTexts,
  trainingTexts,
  valueTexts,
];

/** The English texts of the core by id ("flow.cutOff"); the build for screens has parsed them. */
export const coreTexts: ReadonlyMap<string, unknown> = new Map(
  CATALOGUES.flatMap(({ part, texts }) =>
    Object.entries<unknown>(texts).map(([key, text]) => [`${part}.${key}`, text] as const),
  ),
);
