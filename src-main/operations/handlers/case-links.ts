import type { CaseEvent, OtherCase } from '../../../src-core/contract/case-event.ts';
import { isUnderDanger } from '../../../src-core/session/danger-signs.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { appendToBoth, readCase } from '../../casebook/case.repository.ts';
import { appendToCase, prepareAppend, stale } from '../append-to-case.ts';
import type { Visitor } from '../access/visitor.ts';
import type { ApplicationContext } from '../application-context.ts';
import { loadCase, viewCase, viewOf, type StoredCase } from '../case-reader.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

/** Two cases were one: the first leads to the second from now on, and counts there only. Answers the second. */
export const caseMerge: Handler<'case:merge'> = async (program, { caseId, revision, into }, by) => {
  if (caseId === into.caseId) throw new DomainError('bad-request', refusals.mergedIntoItself());
  const one = await loadAsLookedAt(program, caseId, revision);
  const other = await loadAsLookedAt(program, into.caseId, into.revision);
  for (const { record, step } of [one, other]) {
    const { mergedInto } = step.moment.context;
    if (mergedInto)
      throw new DomainError(
        'refused',
        refusals.mergedAlready({ number: record.number, into: mergedInto.number }),
      );
  }
  if (one.record.is_demo !== other.record.is_demo) throw new DomainError('refused', refusals.demoWithOwn());
  if (isUnderDanger(program.knowledge, one.step.moment.context))
    throw new DomainError('refused', refusals.dangerFirst({ number: one.record.number }));
  await writeToBoth(
    program,
    by,
    [one, { kind: 'merged-into', other: nameOf(other) }],
    [other, { kind: 'merged', other: nameOf(one) }],
  );
  return viewCase(program, into.caseId);
};

/** They are two after all. Answers the case that had been merged. */
export const casePart: Handler<'case:part'> = async (program, { caseId, revision }, by) => {
  const one = await loadAsLookedAt(program, caseId, revision);
  const { mergedInto } = one.step.moment.context;
  if (!mergedInto) throw new DomainError('refused', refusals.notMerged());
  const event = { kind: 'parted', other: mergedInto } as const;
  // The other one may have been deleted meanwhile.
  if (!(await readCase(program.casebook.db, mergedInto.caseId)))
    return appendToCase(program, caseId, one, event, by);
  const other = await loadCase(program, mergedInto.caseId);
  await writeToBoth(program, by, [one, event], [other, { kind: 'parted', other: nameOf(one) }]);
  return viewCase(program, caseId);
};

/** "This one came from that one", or not after all (null). */
export const caseLink: Handler<'case:link'> = async (program, { caseId, revision, from }, by) => {
  const one = await loadAsLookedAt(program, caseId, revision);
  const { cameFrom } = one.step.moment.context;
  if (from === null) {
    if (!cameFrom) throw new DomainError('refused', refusals.notLinked());
    return appendToCase(program, caseId, one, { kind: 'unlinked', other: cameFrom }, by);
  }
  if (from === caseId) throw new DomainError('bad-request', refusals.comesFromItself());
  const other = await loadCase(program, from);
  if (other.step.moment.context.cameFrom?.caseId === caseId)
    throw new DomainError('refused', refusals.otherWayRound({ number: other.record.number }));
  return appendToCase(program, caseId, one, { kind: 'linked', other: nameOf(other) }, by);
};

async function loadAsLookedAt(
  program: ApplicationContext,
  caseId: string,
  revision: number,
): Promise<StoredCase> {
  const stored = await loadCase(program, caseId);
  if (stored.log.length !== revision) throw stale(viewOf(program, stored));
  return stored;
}

type Written = readonly [StoredCase, CaseEvent];

async function writeToBoth(
  program: ApplicationContext,
  by: Visitor,
  [one, event]: Written,
  [other, answer]: Written,
): Promise<void> {
  const written = await appendToBoth(program.casebook.db, [
    await prepareAppend(program, one.record.id, one, event, by),
    await prepareAppend(program, other.record.id, other, answer, by),
  ]);
  if (written === 'stale') throw stale(await viewCase(program, one.record.id));
}

function nameOf({ record }: StoredCase): OtherCase {
  return { caseId: record.id, number: record.number };
}
