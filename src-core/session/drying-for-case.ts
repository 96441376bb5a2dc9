import { CONDITION } from '../contract/relied-on-conditions.ts';
import { usualFlowMm3PerS } from '../flow/usual-flow.ts';
import type { Conditions } from '../knowledge/conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { dryingFigures, computeSpool } from '../moisture/index.ts';
import type { WorkedOut } from '../words/guide-figures.ts';
import type { CaseContext } from './case-context.ts';
import type { AroundCase } from './case-step.ts';

/** Peak flow of a case, mm³/s: as known, or what its nozzle is usually run at; null when neither is known. */
export function flowUnder(
  { melting }: Pick<Knowledge, 'melting'>,
  { [CONDITION.peakFlow]: peak, [CONDITION.nozzleMm]: nozzle }: Conditions,
): number | null {
  if (typeof peak === 'number') return peak;
  return typeof nozzle === 'number' ? usualFlowMm3PerS(melting, nozzle) : null;
}

/** Whether the steps of a remedy ask for a spool's own drying figures. */
export function asksForDrying(knowledge: Knowledge, remedyId: string): boolean {
  return knowledge.remedies.get(remedyId)?.steps.some((step) => step.do.includes('{drying-')) ?? false;
}

/** Drying figures of the spool on the machine while the remedy under way asks for them; none where they cannot be worked out. */
export function dryingForCase(
  knowledge: Knowledge,
  { remedy, conditions }: CaseContext,
  spool: AroundCase['spool'],
): WorkedOut {
  if (!spool || !remedy || !asksForDrying(knowledge, remedy.id)) return {};
  const question = {
    flowMm3PerS: flowUnder(knowledge, conditions),
    dryerTemperatureC: null,
    isDryAir: false,
    targetPercent: null,
  };
  try {
    const { drying } = computeSpool({ ...spool, question, knowledge });
    return drying ? dryingFigures(drying) : {};
  } catch {
    // A logged time or figure that nothing can be computed from: the spool's own page says so, and the remedy goes by the guide's words.
    return {};
  }
}
