import type { CaseView } from '../../src-core/contract/case-view.ts';
import { countedCosts } from '../../src-core/contract/shop-costs.ts';
import type { Spool } from '../../src-core/contract/shop-records.ts';
import { ENGINE_VERSION } from '../../src-core/inference/index.ts';
import type { CaseMoment } from '../../src-core/session/case-flow.ts';
import { dryingFigures } from '../../src-core/moisture/index.ts';
import { buildCaseView } from '../../src-core/session/case-view.ts';
import { eventsInForce, type LoggedEvent } from '../../src-core/session/logged-event.ts';
import { readCase, readLog } from '../casebook/case.repository.ts';
import { readShop } from './handlers/shop.ts';
import { flowUnder, NOTHING_ASKED, reckonOrSay, spoolParts } from './spool-parts.ts';
import type { Program } from './program.ts';
import { Refusal } from './refusal.ts';

/** A case as it stands: its log and what the log adds up to. */
export interface StoredCase {
  readonly log: LoggedEvent[];
  readonly moment: CaseMoment;
}

/** Loads and folds a case. An event that today's guide refuses ends the replay; what came before still shows. */
export async function loadCase(program: Program, caseId: string): Promise<StoredCase> {
  const log = await readLog(program.casebook.db, caseId);
  if (log.length === 0) throw new Refusal('not-found', 'there is no case with that id in this casebook');
  if (log[0]?.event.kind !== 'opened')
    throw new Refusal(
      'refused',
      'The first entry of this case cannot be read by this version, so the case cannot be shown. It is kept as it is, and an export carries it whole.',
    );
  return { log, moment: program.flow.replay(log).moment };
}

/** The view of a stored case, reasoned under today's guide. */
export async function viewCase(program: Program, caseId: string, stored?: StoredCase): Promise<CaseView> {
  const { log, moment } = stored ?? (await loadCase(program, caseId));
  const record = await readCase(program.casebook.db, caseId);
  const shop = await readShop(program);
  const printer = shop.printers.find((one) => one.id === moment.context.intake?.printerId);
  const spool = shop.spools.find((one) => one.id === moment.context.intake?.spoolId);
  const costs = countedCosts(shop.costs);
  return buildCaseView({
    caseId,
    number: record?.number ?? 0,
    printer: printer ? { id: printer.id, label: printer.label } : null,
    spool: spool ? { id: spool.id, label: spool.label } : null,
    engineVersion: ENGINE_VERSION,
    knowledge: program.knowledge,
    log,
    moment,
    reasoning: await program.reasoner.run('reason', moment.context, costs),
    costs,
    workedOut: spool ? await dryingFiguresFor(program, spool, moment) : {},
    previous: await previousProbabilities(program, log, moment),
    now: program.now().toISOString(),
  });
}

/** Drying figures for the spool on the machine, while a remedy under way asks for them. */
async function dryingFiguresFor(
  program: Program,
  spool: Spool,
  { context }: CaseMoment,
): Promise<Readonly<Record<string, string>>> {
  const remedy = context.remedy ? program.knowledge.remedies.get(context.remedy.id) : undefined;
  if (!remedy?.steps.some((step) => step.do.includes('{drying-'))) return {};
  const parts = await spoolParts(program, spool, {
    ...NOTHING_ASKED,
    flowMm3PerS: flowUnder(context.conditions),
  });
  const { drying } = await reckonOrSay(program, parts);
  return drying ? dryingFigures(drying) : {};
}

/** Probabilities before the last event that changed what is known, for showing what moved. */
async function previousProbabilities(
  program: Program,
  log: readonly LoggedEvent[],
  moment: CaseMoment,
): Promise<Map<string, number> | null> {
  const inForce = eventsInForce(log);
  for (let end = inForce.length - 1; end > 0; end--) {
    const before = program.flow.replay(inForce.slice(0, end)).moment;
    if (isSameKnowing(before, moment)) continue;
    const ranking = await program.reasoner.run('rank', before.context);
    return new Map(ranking.map((one) => [one.cause, one.probability]));
  }
  return null;
}

function isSameKnowing(a: CaseMoment, b: CaseMoment): boolean {
  const known = ({ context }: CaseMoment) =>
    JSON.stringify([context.findings, context.conditions, context.tried]);
  return known(a) === known(b);
}

/** The first candidate of a case still open; a closed one has confirmed causes instead. */
export async function topCauseOf(program: Program, { context }: CaseMoment): Promise<string | null> {
  if (context.closing) return null;
  const [first] = await program.reasoner.run('rank', context);
  return first?.cause ?? null;
}
