import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import type { CaseView } from '../../src-core/contract/case-view.ts';
import type { CaseStep } from '../../src-core/session/case-step.ts';
import { isUnderDanger } from '../../src-core/session/danger-signs.ts';
import { asksForDrying } from '../../src-core/session/drying-for-case.ts';
import { asWritten, hasUndoable, type LoggedEvent } from '../../src-core/session/logged-event.ts';
import { refusals } from '../../src-core/words/en/refusals.ts';
import {
  appendEvent,
  readLabelledCase,
  type CaseAppend,
  type LabelledCase,
} from '../casebook/case.repository.ts';
import type { Visitor } from './access/visitor.ts';
import type { ApplicationContext } from './application-context.ts';
import { projectCase } from './case-projection.ts';
import { rebuildStep, spoolOnMachine, topCauseIn, viewCase, viewOf, type StoredCase } from './case-reader.ts';
import { DomainError } from './domain-error.ts';

/** A case before the event that is appended; one that is being opened has no row and no step yet. */
export type Before = Pick<StoredCase, 'log' | 'under'> & {
  readonly record: LabelledCase | null;
  readonly step: CaseStep | null;
};

/**
 * One answer: one trip to the reasoning thread, which says whether the event fits and what the case adds up to with it, one
 * transaction that writes all of it, and the view from what is at hand.
 */
export async function appendToCase(
  program: ApplicationContext,
  caseId: string,
  before: Before,
  sent: CaseEvent,
  by: Visitor,
): Promise<CaseView> {
  const append = await prepareAppend(program, caseId, before, sent, by);
  const { db } = program.casebook;
  const written = await appendEvent(db, append);
  if (written === 'stale') throw stale(await viewCase(program, caseId));
  const { record, step, under } = append;
  // Only an opening, and another printer or spool, ask for what these are called.
  const isNamed = before.record && sent.kind !== 'reassigned';
  const row = isNamed ? before.record : await readLabelledCase(db, caseId);
  if (!row) throw new DomainError('not-found', refusals.noSuchCase());
  return viewOf(program, {
    record: { ...row, ...record, number: written.number },
    log: [...before.log, append.logged],
    step,
    under,
  });
}

/** What an event makes of a case, ready to be written. */
export async function prepareAppend(
  program: ApplicationContext,
  caseId: string,
  before: Before,
  sent: CaseEvent,
  by: Visitor,
): Promise<CaseAppend> {
  const event = asWritten(sent);
  const initials = by.kind === 'device' ? by.person?.initials : undefined;
  const logged: LoggedEvent = {
    seq: before.log.length + 1,
    at: program.now().toISOString(),
    event,
    ...(initials !== undefined && { by: initials }),
  };
  const log = [...before.log, logged];
  // Logs of before hold such entries, so the flow itself takes them.
  if (event.kind === 'closed' || event.kind === 'parked') refuseUnderDanger(program, before);
  const step = await stepWith(program, before, log, logged);
  const { record, causes } = projectCase({
    caseId,
    knowledge: program.knowledge,
    log,
    moment: step.moment,
    topCause: topCauseIn(step),
    engineVersion: program.engineVersion,
    isDemo: before.record?.is_demo === 1,
  });
  return { logged, record, causes, step, under: before.under, guideFiles: program.guideFiles };
}

function refuseUnderDanger(program: ApplicationContext, { step, record }: Before): void {
  if (step && record && isUnderDanger(program.knowledge, step.moment.context))
    throw new DomainError('refused', refusals.dangerFirst({ number: record.number }));
}

async function stepWith(
  program: ApplicationContext,
  before: Before,
  log: readonly LoggedEvent[],
  logged: LoggedEvent,
): Promise<CaseStep> {
  const { event } = logged;
  const spoolId = before.record?.spool_id ?? null;
  if (event.kind === 'undone') {
    if (!hasUndoable(before.log)) throw new DomainError('refused', refusals.nothingToTakeBack());
    return rebuildStep(program, spoolId, log, before.under);
  }
  const mayDry = event.kind === 'remedy-chosen' && asksForDrying(program.knowledge, event.remedy);
  const advanced = await program.reasoner.run('advance', before.step, logged, {
    costs: before.under.costs,
    spool: mayDry ? await spoolOnMachine(program, spoolId) : null,
  });
  if (!advanced.ok) throw new DomainError(before.step === null ? 'bad-request' : 'refused', advanced.reason);
  return advanced.step;
}

/** The answer to a caller who looked at an earlier revision. */
export function stale(current: CaseView): DomainError {
  return new DomainError('stale', refusals.caseMovedOn(), current);
}
