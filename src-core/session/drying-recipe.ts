import { CONDITION } from '../contract/relied-on-conditions.ts';
import type { DryingReport, SpoolReport } from '../contract/spool-life.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { dryingFigures } from '../moisture/index.ts';
import { fillText } from './filled-text.ts';

/**
 * How to dry a spool, in words: what was worked out for it, or the guide's figures of its polymer. A remedy's steps take the
 * same words from the same places, so that label, planner and remedy cannot say different things.
 */
export function dryingRecipe(
  knowledge: Knowledge,
  make: { readonly polymer: string; readonly filler: string },
  drying: DryingReport | null,
): SpoolReport['recipe'] {
  const known = { [CONDITION.polymer]: make.polymer, [CONDITION.filler]: make.filler };
  const workedOut = drying ? dryingFigures(drying) : {};
  return {
    temperature: fillText('{drying-temperature}', knowledge, known, workedOut),
    hours: fillText('{drying-hours}', knowledge, known, workedOut),
  };
}
