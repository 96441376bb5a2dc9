import type { CaseView } from '../../src-core/contract/case-view.ts';
import { countedCosts } from '../../src-core/session/counted-costs.ts';
import type { CaseMoment } from '../../src-core/session/case-flow.ts';
import type { AroundCase, CaseStep } from '../../src-core/session/case-step.ts';
import { buildCaseView } from '../../src-core/session/case-view.ts';
import { asksForDrying } from '../../src-core/session/drying-for-case.ts';
import type { LoggedEvent } from '../../src-core/session/logged-event.ts';
import { refusals } from '../../src-core/words/en/refusals.ts';
import { keepRebuilt, readLabelledCase, readLog, type LabelledCase } from '../casebook/case.repository.ts';
import { readStep, type MadeUnder } from '../casebook/case-step.repository.ts';
import { readCosts } from '../casebook/shop-setting.repository.ts';
import { listSpools } from '../casebook/spool.repository.ts';
import { projectCase } from './case-projection.ts';
import { NOTHING_ASKED, spoolParts } from './spool-parts.ts';
import type { ApplicationContext } from './application-context.ts';
import { DomainError } from './domain-error.ts';

/** A case as it stands: its row, its log, and what the log adds up to. */
export interface StoredCase {
  readonly record: LabelledCase;
  readonly log: readonly LoggedEvent[];
  readonly step: CaseStep;
  readonly under: MadeUnder;
}

/** What steps are made under now. */
export async function underToday(program: ApplicationContext): Promise<MadeUnder> {
  return {
    knowledgeVersion: program.knowledge.version,
    engineVersion: program.engineVersion,
    costs: countedCosts((await readCosts(program.casebook.db)).value),
  };
}

/**
 * Loads a case with the step kept for it: nothing is replayed and nothing reasoned. Only where the step was made under
 * another guide, engine or costs, or was never made (an import, an earlier version), it is worked out from the log, once.
 */
export async function loadCase(program: ApplicationContext, caseId: string): Promise<StoredCase> {
  const { db } = program.casebook;
  const log = await readLog(db, caseId);
  const record = await readLabelledCase(db, caseId);
  if (log.length === 0 || !record) throw new DomainError('not-found', refusals.noSuchCase());
  if (log[0]?.event.kind !== 'opened') throw new DomainError('refused', refusals.firstEntryUnreadable());
  const under = await underToday(program);
  const kept = await readStep(db, caseId, log.length, under);
  return { record, log, under, step: kept ?? (await rebuildAndKeep(program, record, log, under)) };
}

async function rebuildAndKeep(
  program: ApplicationContext,
  record: LabelledCase,
  log: readonly LoggedEvent[],
  under: MadeUnder,
): Promise<CaseStep> {
  const step = await rebuildStep(program, record.spool_id, log, under);
  const { record: row, causes } = projectCase({
    caseId: record.id,
    knowledge: program.knowledge,
    log,
    moment: step.moment,
    topCause: topCauseIn(step),
    engineVersion: record.engine_version,
    isDemo: record.is_demo === 1,
  });
  // The row says under which guide the last entry was made; that stays true.
  const asMade = { ...row, knowledge_version: record.knowledge_version };
  try {
    await keepRebuilt(program.casebook.db, { record: asMade, causes, step, under });
  } catch {
    // A full disk or a casebook that may not be written: the case is shown all the same, and worked out again next time.
  }
  return step;
}

/** What a log adds up to, from its beginning. */
export async function rebuildStep(
  program: ApplicationContext,
  spoolId: string | null,
  log: readonly LoggedEvent[],
  { costs }: MadeUnder,
): Promise<CaseStep> {
  const mayDry = log.some(
    ({ event }) => event.kind === 'remedy-chosen' && asksForDrying(program.knowledge, event.remedy),
  );
  const spool = mayDry ? await spoolOnMachine(program, spoolId) : null;
  return program.reasoner.run('rebuild', log, { costs, spool });
}

/** The spool with its life, where drying it may have to be worked out. */
export async function spoolOnMachine(
  program: ApplicationContext,
  spoolId: string | null,
): Promise<AroundCase['spool']> {
  if (spoolId === null) return null;
  const spool = (await listSpools(program.casebook.db)).find((one) => one.id === spoolId);
  return spool ? spoolParts(program, spool, NOTHING_ASKED) : null;
}

/** The view of a case, arranged from what is at hand. */
export function viewOf(program: ApplicationContext, { record, log, step, under }: StoredCase): CaseView {
  return buildCaseView({
    caseId: record.id,
    number: record.number,
    ...placesOf(record),
    engineVersion: under.engineVersion,
    knowledge: program.knowledge,
    log,
    step,
    costs: under.costs,
    now: program.now().toISOString(),
  });
}

/** The printer and the spool that a case names, as they are called today. */
export function placesOf({ printer_id, printer_label, spool_id, spool_label }: StoredCase['record']) {
  const named = (id: string | null, label: string | null) =>
    id === null || label === null ? null : { id, label };
  return { printer: named(printer_id, printer_label), spool: named(spool_id, spool_label) };
}

/** The view of a stored case. */
export async function viewCase(program: ApplicationContext, caseId: string): Promise<CaseView> {
  return viewOf(program, await loadCase(program, caseId));
}

/** The first candidate of a case still open; a closed one has confirmed causes instead. */
export function topCauseIn({ moment, ranking }: CaseStep): string | null {
  return moment.context.closing ? null : (ranking[0]?.[0] ?? null);
}

/** The same for a case that is taken in whole and not yet stepped through. */
export async function topCauseOf(
  program: ApplicationContext,
  { context }: CaseMoment,
): Promise<string | null> {
  if (context.closing) return null;
  const [first] = await program.reasoner.run('rank', context);
  return first?.cause ?? null;
}
