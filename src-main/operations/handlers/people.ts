import { refusals } from '../../../src-core/words/en/refusals.ts';
import { appendUnlessOvertaken } from '../../casebook/append-unless-overtaken.ts';
import { readCase, readLog, updateProjection } from '../../casebook/case.repository.ts';
import type { CasebookDb } from '../../casebook/casebook.ts';
import { signOutEverywhere } from '../../casebook/device.repository.ts';
import { replaceInitials } from '../../casebook/initials.repository.ts';
import { deletePerson, listPeople, savePerson } from '../../casebook/person.repository.ts';
import { savePinHash } from '../../casebook/pin.repository.ts';
import { forgetTrainingResults } from '../../casebook/training-result.repository.ts';
import { renameInAudit } from '../access/audit.ts';
import type { ApplicationContext } from '../application-context.ts';
import { projectCase } from '../case-projection.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';
import { readShop } from './shop.ts';

export const personRename: Handler<'person:rename'> = async (program, { personId, initials, revision }) => {
  const people = await listPeople(program.casebook.db);
  const person = people.find(({ id }) => id === personId);
  if (!person) throw await gone(program);
  if (people.some((one) => one.id !== personId && one.initials.toLowerCase() === initials.toLowerCase()))
    throw new DomainError('bad-request', refusals.initialsTaken({ initials }));
  await change(program, personId, revision, async (trx) => {
    await savePerson(trx, { ...person, initials });
    await renameInAudit(trx, person.initials, initials);
    await inEveryLog(program, trx, person.initials, initials);
  });
  return readShop(program);
};

export const personRemove: Handler<'person:remove'> = async (program, { personId, revision }) => {
  const people = await listPeople(program.casebook.db);
  const person = people.find(({ id }) => id === personId);
  if (!person) throw await gone(program);
  const isShared = people.some(({ id, initials }) => id !== personId && initials === person.initials);
  if (isShared) throw new DomainError('refused', refusals.initialsTwice({ initials: person.initials }));
  await change(program, personId, revision, async (trx) => {
    await forgetTrainingResults(trx, personId);
    await savePinHash(trx, personId, null);
    await signOutEverywhere(trx, personId);
    await deletePerson(trx, personId);
    await renameInAudit(trx, person.initials, null);
    await inEveryLog(program, trx, person.initials, null);
  });
  return readShop(program);
};

/** Removed at another screen, or by the first of two clicks. */
async function gone(program: ApplicationContext): Promise<DomainError> {
  return new DomainError('stale', refusals.personGone(), await readShop(program));
}

async function change(
  program: ApplicationContext,
  personId: string,
  revision: number,
  write: (trx: CasebookDb) => Promise<void>,
): Promise<void> {
  const done = await appendUnlessOvertaken(program.casebook.db, {
    revision,
    standsAt: async (trx) => (await listPeople(trx)).find(({ id }) => id === personId)?.revision ?? 0,
    write,
  });
  if (done === 'stale') throw new DomainError('stale', refusals.personMovedOn(), await readShop(program));
}

/** The lists' rows follow from the logs: worked out anew where a log was changed. */
async function inEveryLog(
  { knowledge, flow }: ApplicationContext,
  trx: CasebookDb,
  from: string,
  to: string | null,
): Promise<void> {
  for (const caseId of await replaceInitials(trx, { from, to })) {
    const row = await readCase(trx, caseId);
    const log = await readLog(trx, caseId);
    if (!row || log[0]?.event.kind !== 'opened') continue;
    const { record, causes } = projectCase({
      caseId,
      knowledge,
      log,
      moment: flow.replay(log).moment,
      topCause: null,
      engineVersion: row.engine_version,
      isDemo: row.is_demo === 1,
    });
    await updateProjection(
      trx,
      {
        ...record,
        knowledge_version: row.knowledge_version,
        // Of an open case the first candidate stays what it was.
        ...(causes.length === 0 && {
          cause_label: row.cause_label,
          search_text: `${record.search_text} ${row.cause_label.toLowerCase()}`,
        }),
      },
      causes,
    );
  }
}
