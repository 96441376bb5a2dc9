import { circumstanceTexts } from '../../src-core/words/en/circumstances.ts';
import { twoFigures, type Message } from '../../src-core/words/message.ts';
import { CONDITION } from '../../src-core/contract/relied-on-conditions.ts';
import { flowUnder } from '../../src-core/session/drying-for-case.ts';
import type { Intake } from '../../src-core/contract/case-event.ts';
import type { Printer, Spool } from '../../src-core/contract/shop-records.ts';
import type { SpoolReport } from '../../src-core/contract/spool-life.ts';
import {
  countedConditionIds,
  countedConditions,
  type CountedCondition,
} from '../../src-core/maintenance/counted-conditions.ts';
import { refusals } from '../../src-core/words/en/refusals.ts';
import { readMaintenance } from './maintenance-records.ts';
import { readShop } from './handlers/shop.ts';
import type { ApplicationContext } from './application-context.ts';
import { DomainError } from './domain-error.ts';
import { NOTHING_ASKED, computeOrSay, spoolParts } from './spool-parts.ts';

const { m } = circumstanceTexts;

/** A printer's and a spool's standing circumstances fill what the operator left open; what was said at intake wins. */
export async function addStandingConditions(program: ApplicationContext, intake: Intake): Promise<Intake> {
  const shop = await readShop(program);
  const printer = shop.printers.find((one) => one.id === intake.printerId);
  const spool = shop.spools.find((one) => one.id === intake.spoolId);
  if (intake.printerId && !printer) throw new DomainError('bad-request', refusals.pickAnotherPrinter());
  if (intake.spoolId && !spool) throw new DomainError('bad-request', refusals.pickAnotherSpool());
  const counted = printer ? await countedFor(program, printer) : [];
  // What is counted from dates is never taken from what was once typed.
  const isCounted = countedConditionIds(program.knowledge);
  const standing: Record<string, string | number> = Object.fromEntries(
    Object.entries(printer?.conditions ?? {}).filter(([id]) => !isCounted.has(id)),
  );
  for (const { condition, value } of counted) standing[condition] = value;
  if (printer && printer.printHours > 0) standing[CONDITION.printerHours] ??= printer.printHours;
  if (shop.climate.kind === 'measured') standing[CONDITION.roomHumidity] ??= shop.climate.percentRh;
  if (spool) {
    standing[CONDITION.polymer] = spool.polymer;
    standing[CONDITION.filler] = spool.filler;
    if (spool.fillerPercent !== null) standing[CONDITION.fillerPercent] = spool.fillerPercent;
    if (spool.storage !== null) standing[CONDITION.storage] = spool.storage;
  }
  const isKnown = (id: string) => program.knowledge.conditions.has(id);
  const known = Object.fromEntries(Object.entries(standing).filter(([id]) => isKnown(id)));
  const conditions = { ...known, ...intake.conditions };
  const reasons = Object.fromEntries(
    counted.flatMap(({ condition, because }) =>
      intake.conditions[condition] === undefined ? [[condition, because]] : [],
    ),
  );
  const because = { ...reasons, ...intake.because };
  const filled = { ...intake, conditions, ...(Object.keys(because).length > 0 && { because }) };
  if (!spool || conditions[CONDITION.spoolWater] !== undefined || !isKnown(CONDITION.spoolWater))
    return filled;
  const water = await waterOf(program, spool, conditions);
  if (!water) return filled;
  return {
    ...filled,
    conditions: { ...conditions, [CONDITION.spoolWater]: water.verdict },
    because: { ...because, [CONDITION.spoolWater]: water.because },
  };
}

/** What the printer's maintenance log says of this case. */
async function countedFor(
  program: ApplicationContext,
  printer: Printer,
): Promise<readonly CountedCondition[]> {
  const [own] = (await readMaintenance(program, [printer])).of;
  return own
    ? countedConditions(program.knowledge, own.planned, own.entries, own.use, program.now().getTime())
    : [];
}

/** How wet the spool is for this job, with the figures it rests on; null where its life is not known. */
async function waterOf(
  program: ApplicationContext,
  spool: Spool,
  conditions: Intake['conditions'],
): Promise<{ verdict: string; because: readonly Message[] } | null> {
  // Another polymer said at intake means that another spool is on the machine than the one picked.
  if (conditions[CONDITION.polymer] !== spool.polymer) return null;
  const parts = await spoolParts(program, spool, {
    ...NOTHING_ASKED,
    flowMm3PerS: flowUnder(program.knowledge, conditions),
  });
  const computed = await computeOrSay(program, parts);
  return computed.water && { verdict: computed.water.verdict, because: inWords(computed.water, computed) };
}

function inWords(
  water: NonNullable<SpoolReport['water']>,
  { flowMm3PerS }: Pick<SpoolReport, 'flowMm3PerS'>,
): readonly Message[] {
  const wettest = water.outer.likely >= water.inner.likely ? water.outer : water.inner;
  return [
    m.spoolWater({
      likely: twoFigures(wettest.likely),
      low: twoFigures(wettest.low),
      high: twoFigures(wettest.high),
    }),
    m.spoolBears({ flow: Math.round(flowMm3PerS), limit: twoFigures(water.limit.likely) }),
    m.spoolChance({ percent: Math.round(100 * water.chanceOverLimit) }),
  ];
}
