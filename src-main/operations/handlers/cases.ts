import { HOST_ONLY_KINDS } from '../../../src-core/contract/case-event.ts';
import { countedCosts } from '../../../src-core/session/counted-costs.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { readCosts, readExperienceChoice } from '../../casebook/shop-setting.repository.ts';
import { appendToCase, stale } from '../append-to-case.ts';
import { loadCase, underToday, viewOf } from '../case-reader.ts';
import type { Handler } from '../dispatcher.ts';
import { faultOfWords } from '../record-checks.ts';
import { DomainError } from '../domain-error.ts';
import type { ApplicationContext } from '../application-context.ts';
import { confirmedRows, factorsForOpening } from '../own-experience.ts';
import { linksForOpening } from '../own-links.ts';
import { addStandingConditions } from '../standing-conditions.ts';
import { refuseUnfitPhoto } from './photos.ts';

export const caseOpen: Handler<'case:open'> = async (
  program,
  { caseId = program.newId(), ...intake },
  by,
) => {
  const named = intake.complaints.map(({ observation }) => observation);
  if (new Set(named).size < named.length) throw new DomainError('bad-request', refusals.namedTwice());
  const own = await ownCasesFor(program, intake.printerId);
  const standing = await addStandingConditions(program, intake);
  const event = { kind: 'opened', intake: { ...standing, ...own } } as const;
  const fault = faultOfWords(event);
  if (fault) throw new DomainError('bad-request', fault);
  const under = await underToday(program);
  return appendToCase(program, caseId, { log: [], step: null, record: null, under }, event, by);
};

/** What the shop's own cases add to a case that is opened now, as far as the lead lets them count. */
async function ownCasesFor(program: ApplicationContext, printerId: string | null) {
  const { mode, until, links } = (await readExperienceChoice(program.casebook.db)).value;
  if (mode === 'off') return {};
  const rows = await confirmedRows(program);
  const ownExperience = factorsForOpening(program.knowledge, rows, until, printerId);
  const ownLinks = links ? await linksForOpening(program, rows, until) : undefined;
  return { ...(ownExperience && { ownExperience }), ...(ownLinks && { ownLinks }) };
}

export const caseView: Handler<'case:view'> = async (program, { caseId }) => {
  const stored = await loadCase(program, caseId);
  program.reasoner.looked(stored.step, { costs: stored.under.costs, spool: null });
  return viewOf(program, stored);
};

export const caseSend: Handler<'case:send'> = async (program, { caseId, revision, event }, by) => {
  if (HOST_ONLY_KINDS.has(event.kind))
    throw new DomainError('refused', refusals.callOfItsOwn({ kind: event.kind }));
  const stored = await loadCase(program, caseId);
  if (stored.log.length !== revision) throw stale(viewOf(program, stored));
  const { mergedInto } = stored.step.moment.context;
  if (mergedInto) throw new DomainError('refused', refusals.goOnThere({ number: mergedInto.number }));
  await refuseUnfitPhoto(program, stored.log, event);
  const fault = faultOfWords(event);
  if (fault) throw new DomainError('bad-request', fault);
  return appendToCase(program, caseId, stored, event, by);
};

export const caseWhyCandidate: Handler<'case:why-candidate'> = async (program, { caseId, cause }) => {
  const { step } = await loadCase(program, caseId);
  if (!program.knowledge.causes.has(cause))
    throw new DomainError('not-found', refusals.noSuchCause({ id: cause }));
  return program.reasoner.run('why-candidate', step.moment.context, cause);
};

export const caseWhyCheck: Handler<'case:why-check'> = async (program, { caseId, observation }) => {
  const { step } = await loadCase(program, caseId);
  if (!program.knowledge.observations.has(observation))
    throw new DomainError('not-found', refusals.noSuchObservation({ id: observation }));
  const costs = countedCosts((await readCosts(program.casebook.db)).value);
  return program.reasoner.run('why-check', step.moment.context, observation, costs);
};

export const caseSecondThoughts: Handler<'case:second-thoughts'> = async (program, { caseId }) => {
  const { step } = await loadCase(program, caseId);
  return program.reasoner.run('second-thoughts', step.moment.context);
};
