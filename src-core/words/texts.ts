import { caseLogTexts } from './en/case-log.ts';
import { circumstanceTexts } from './en/circumstances.ts';
import { drillTexts } from './en/drills.ts';
import { dryingTexts } from './en/drying.ts';
import { faultTexts } from './en/faults.ts';
import { figureTexts } from './en/figures.ts';
import { fitTexts } from './en/fit.ts';
import { flowTexts } from './en/flow.ts';
import { listTexts } from './en/lists.ts';
import { refusalTexts } from './en/refusals.ts';
import { trainingTexts } from './en/training.ts';
import { valueTexts } from './en/values.ts';

const CATALOGUES = [
  caseLogTexts,
  circumstanceTexts,
  drillTexts,
  dryingTexts,
  faultTexts,
  figureTexts,
  fitTexts,
  flowTexts,
  listTexts,
  refusalTexts,
  trainingTexts,
  valueTexts,
];

/** The English texts of the core by id ("flow.cutOff"); the build for screens has parsed them. */
export const coreTexts: ReadonlyMap<string, unknown> = new Map(
  CATALOGUES.flatMap(({ part, texts }) =>
    Object.entries<unknown>(texts).map(([key, text]) => [`${part}.${key}`, text] as const),
  ),
);
