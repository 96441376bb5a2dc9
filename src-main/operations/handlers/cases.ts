import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import type { CaseView } from '../../../src-core/contract/case-view.ts';
import { countedCosts } from '../../../src-core/session/counted-costs.ts';
import type { CaseStep } from '../../../src-core/session/case-step.ts';
import { asksForDrying } from '../../../src-core/session/drying-for-case.ts';
import { asWritten, hasUndoable, type LoggedEvent } from '../../../src-core/session/logged-event.ts';
import { appendEvent, readLabelledCase, type LabelledCase } from '../../casebook/case.repository.ts';
import { readCosts } from '../../casebook/shop-setting.repository.ts';
import {
  loadCase,
  rebuildStep,
  spoolOnMachine,
  topCauseIn,
  underToday,
  viewCase,
  viewOf,
  type StoredCase,
} from '../case-reader.ts';
import { projectCase } from '../case-projection.ts';
import type { Handler } from '../dispatcher.ts';
import type { ApplicationContext } from '../application-context.ts';
import { faultOfWords } from '../record-checks.ts';
import { DomainError } from '../domain-error.ts';
import { factorsForOpening } from '../own-experience.ts';
import { addStandingConditions } from '../standing-conditions.ts';
import { refuseUnfitPhoto } from './photos.ts';

export const caseOpen: Handler<'case:open'> = async (program, { caseId = program.newId(), ...intake }) => {
  const named = intake.complaints.map(({ observation }) => observation);
  if (new Set(named).size < named.length)
    throw new DomainError('bad-request', 'complaints: the same thing is named twice');
  const ownExperience = await factorsForOpening(program, intake.printerId);
  const standing = await addStandingConditions(program, intake);
  const event = { kind: 'opened', intake: { ...standing, ...(ownExperience && { ownExperience }) } } as const;
  const under = await underToday(program);
  return append(program, caseId, { log: [], step: null, record: null, under }, event);
};

export const caseView: Handler<'case:view'> = (program, { caseId }) => viewCase(program, caseId);

export const caseSend: Handler<'case:send'> = async (program, { caseId, revision, event }) => {
  const stored = await loadCase(program, caseId);
  if (stored.log.length !== revision) throw stale(viewOf(program, stored));
  await refuseUnfitPhoto(program, stored.log, event);
  const fault = faultOfWords(event);
  if (fault) throw new DomainError('bad-request', fault);
  return append(program, caseId, stored, event);
};

export const caseWhyCandidate: Handler<'case:why-candidate'> = async (program, { caseId, cause }) => {
  const { step } = await loadCase(program, caseId);
  if (!program.knowledge.causes.has(cause))
    throw new DomainError('not-found', `the guide has no cause "${cause}"`);
  return program.reasoner.run('why-candidate', step.moment.context, cause);
};

export const caseWhyCheck: Handler<'case:why-check'> = async (program, { caseId, observation }) => {
  const { step } = await loadCase(program, caseId);
  if (!program.knowledge.observations.has(observation))
    throw new DomainError('not-found', `the guide has no observation "${observation}"`);
  const costs = countedCosts((await readCosts(program.casebook.db)).value);
  return program.reasoner.run('why-check', step.moment.context, observation, costs);
};

export const caseSecondThoughts: Handler<'case:second-thoughts'> = async (program, { caseId }) => {
  const { step } = await loadCase(program, caseId);
  return program.reasoner.run('second-thoughts', step.moment.context);
};

function stale(current: CaseView): DomainError {
  return new DomainError(
    'stale',
    'The case has moved on at another screen; this is how it stands now.',
    current,
  );
}

/** A case before the event that is appended; one that is being opened has no row and no step yet. */
type Before = Pick<StoredCase, 'log' | 'under'> & {
  readonly record: LabelledCase | null;
  readonly step: CaseStep | null;
};

/**
 * One answer: one trip to the reasoning thread, which says whether the event fits and what the case adds up to with it, one
 * transaction that writes all of it, and the view from what is at hand.
 */
async function append(
  program: ApplicationContext,
  caseId: string,
  before: Before,
  sent: CaseEvent,
): Promise<CaseView> {
  const event = asWritten(sent);
  const { under } = before;
  const logged: LoggedEvent = { seq: before.log.length + 1, at: program.now().toISOString(), event };
  const log = [...before.log, logged];
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
  const { db } = program.casebook;
  const written = await appendEvent(db, {
    logged,
    record,
    causes,
    step,
    under,
    guideFiles: program.guideFiles,
  });
  if (written === 'stale') throw stale(await viewCase(program, caseId));
  // Only an opening does not know yet what its printer and spool are called.
  const row = before.record ?? (await readLabelledCase(db, caseId));
  if (!row) throw new DomainError('not-found', 'there is no case with that id in this casebook');
  return viewOf(program, { record: { ...row, ...record, number: written.number }, log, step, under });
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
    if (!hasUndoable(before.log)) throw new DomainError('refused', 'there is nothing to take back');
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
