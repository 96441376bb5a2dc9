import type { Spool } from '../../src-core/contract/shop-records.ts';
import type { Conditions } from '../../src-core/knowledge/conditions.ts';
import { usualFlowMm3PerS } from '../../src-core/contract/usual-flow.ts';
import type { SpoolParts } from '../../src-core/moisture/index.ts';
import { readClimate } from '../casebook/shop-setting.repository.ts';
import { readSpoolLog } from '../casebook/spool-event.repository.ts';
import type { Program } from './program.ts';

export const NOTHING_ASKED: SpoolParts['question'] = {
  flowMm3PerS: null,
  dryerTemperatureC: null,
  isDryAir: false,
  targetPercent: null,
};

/** What a spool is and where it has been, as the moisture part takes it. */
export async function spoolParts(
  program: Program,
  spool: Spool,
  question: SpoolParts['question'],
): Promise<Omit<SpoolParts, 'knowledge'>> {
  const { db } = program.casebook;
  return {
    make: spool,
    body: spool.body,
    log: await readSpoolLog(db, spool.id),
    climate: await readClimate(db),
    question,
    nowMs: program.now().getTime(),
  };
}

/** Peak flow of a case, mm³/s: as known, or what its nozzle is usually run at; null when neither is known. */
export function flowUnder({ 'peak-flow': peak, 'nozzle-mm': nozzle }: Conditions): number | null {
  if (typeof peak === 'number') return peak;
  return typeof nozzle === 'number' ? usualFlowMm3PerS(nozzle) : null;
}
