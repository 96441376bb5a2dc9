import type { Spool } from '../../src-core/contract/shop-records.ts';
import type { SpoolReport } from '../../src-core/contract/spool-life.ts';
import { usualFlowMm3PerS } from '../../src-core/flow/usual-flow.ts';
import type { SpoolParts } from '../../src-core/moisture/index.ts';
import { spoolLogTexts } from '../../src-core/words/en/spool-log.ts';
import { readClimate } from '../casebook/shop-setting.repository.ts';
import { readSpoolLog } from '../casebook/spool-event.repository.ts';
import type { ApplicationContext } from './application-context.ts';

type SpoolFigures = Pick<SpoolReport, 'silence' | 'flowMm3PerS' | 'water' | 'drying'>;

export const NOTHING_ASKED: SpoolParts['question'] = {
  flowMm3PerS: null,
  dryerTemperatureC: null,
  isDryAir: false,
  targetPercent: null,
};

/** What a spool is and where it has been, as the moisture part takes it. */
export async function spoolParts(
  program: ApplicationContext,
  spool: Spool,
  question: SpoolParts['question'],
): Promise<Omit<SpoolParts, 'knowledge'>> {
  const { db } = program.casebook;
  return {
    make: spool,
    body: spool.body,
    log: (await readSpoolLog(db, spool.id)).events,
    climate: (await readClimate(db)).value,
    question,
    nowMs: program.now().getTime(),
  };
}

/**
 * What a spool's life adds up to. Where a logged time or a figure leaves nothing to compute that is said in place of the
 * figures, so that the page opens and the entry can be taken back.
 */
export async function computeOrSay(
  { reasoner, knowledge }: Pick<ApplicationContext, 'reasoner' | 'knowledge'>,
  parts: Omit<SpoolParts, 'knowledge'>,
): Promise<SpoolFigures> {
  try {
    return await reasoner.run('spool', parts);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return {
      silence: spoolLogTexts.m.unreckonable({ why: reason }),
      flowMm3PerS: parts.question.flowMm3PerS ?? usualFlowMm3PerS(knowledge.melting),
      water: null,
      drying: null,
    };
  }
}
