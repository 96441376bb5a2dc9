import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import { countedCosts } from '../../../src-core/contract/shop-costs.ts';
import { asWritten, type LoggedEvent } from '../../../src-core/session/logged-event.ts';
import { appendEvent, readCase } from '../../casebook/case.repository.ts';
import { readCosts } from '../../casebook/shop-setting.repository.ts';
import { loadCase, topCauseOf, viewCase } from '../case-reader.ts';
import { projectCase } from '../case-projection.ts';
import type { Handler } from '../dispatcher.ts';
import type { Program } from '../program.ts';
import { Refusal } from '../refusal.ts';
import { addStandingConditions } from '../standing-conditions.ts';

export const caseOpen: Handler<'case:open'> = async (program, intake) => {
  const named = intake.complaints.map(({ observation }) => observation);
  if (new Set(named).size < named.length)
    throw new Refusal('bad-request', 'complaints: the same thing is named twice');
  const caseId = program.newId();
  const withStanding = await addStandingConditions(program, intake);
  await append(program, caseId, [], { kind: 'opened', intake: withStanding });
  return viewCase(program, caseId);
};

export const caseView: Handler<'case:view'> = (program, { caseId }) => viewCase(program, caseId);

export const caseSend: Handler<'case:send'> = async (program, { caseId, revision, event }) => {
  const stored = await loadCase(program, caseId);
  if (stored.log.length !== revision) {
    throw new Refusal(
      'stale',
      'The case has moved on at another screen; this is how it stands now.',
      await viewCase(program, caseId, stored),
    );
  }
  await append(program, caseId, stored.log, event);
  return viewCase(program, caseId);
};

export const caseWhyCandidate: Handler<'case:why-candidate'> = async (program, { caseId, cause }) => {
  const { moment } = await loadCase(program, caseId);
  if (!program.knowledge.causes.has(cause))
    throw new Refusal('not-found', `the guide has no cause "${cause}"`);
  return program.reasoner.run('why-candidate', moment.context, cause);
};

export const caseWhyCheck: Handler<'case:why-check'> = async (program, { caseId, observation }) => {
  const { moment } = await loadCase(program, caseId);
  if (!program.knowledge.observations.has(observation))
    throw new Refusal('not-found', `the guide has no observation "${observation}"`);
  const costs = countedCosts(await readCosts(program.casebook.db));
  return program.reasoner.run('why-check', moment.context, observation, costs);
};

export const caseSecondThoughts: Handler<'case:second-thoughts'> = async (program, { caseId }) => {
  const { moment } = await loadCase(program, caseId);
  return program.reasoner.run('second-thoughts', moment.context);
};

/** Checks the event against guide and flow, then writes it and the list row that follows, in one transaction. */
async function append(
  program: Program,
  caseId: string,
  log: readonly LoggedEvent[],
  sent: CaseEvent,
): Promise<void> {
  const event = asWritten(sent);
  const refusal = program.flow.refusalOf(log, event);
  if (refusal) throw new Refusal(log.length === 0 ? 'bad-request' : 'refused', refusal);
  const logged: LoggedEvent = { seq: log.length + 1, at: program.now().toISOString(), event };
  const longer = [...log, logged];
  const { moment } = program.flow.replay(longer);
  const topCause = await topCauseOf(program, moment);
  const before = await readCase(program.casebook.db, caseId);
  const { record, causes } = projectCase({
    caseId,
    knowledge: program.knowledge,
    log: longer,
    moment,
    topCause,
    isDemo: before?.is_demo === 1,
  });
  const written = await appendEvent(program.casebook.db, { logged, record, causes });
  if (written === 'stale') {
    throw new Refusal(
      'stale',
      'The case has moved on at another screen; this is how it stands now.',
      await viewCase(program, caseId),
    );
  }
}
