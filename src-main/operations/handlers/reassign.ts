import type { OutputOf } from '../../../src-core/contract/calls.ts';
import { appendEvent, readCase } from '../../casebook/case.repository.ts';
import { prepareAppend } from '../append-to-case.ts';
import { loadCase } from '../case-reader.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

/**
 * Several cases were of another printer or spool: each gets an event of its own. One that somebody else has changed since it
 * was looked at is left as it is and named; `back` is what the same call takes to undo the rest.
 */
export const caseReassign: Handler<'case:reassign'> = async (program, { cases }) => {
  const { db } = program.casebook;
  const printers = await namesOf('printers');
  const spools = await namesOf('spools');
  const answer: OutputOf<'case:reassign'> = { back: [], overtaken: [] };
  for (const { caseId, revision, printerId, spoolId } of cases) {
    const printer = named(printers, printerId, 'printer');
    const spool = named(spools, spoolId, 'spool');
    if (!(await readCase(db, caseId)))
      throw new DomainError('not-found', 'one of these cases is not in this casebook');
    const before = await loadCase(program, caseId);
    const { id, number, printer_id, spool_id } = before.record;
    const isSame =
      (printer === undefined || (printer?.id ?? null) === printer_id) &&
      (spool === undefined || (spool?.id ?? null) === spool_id);
    if (isSame) continue;
    const append = await prepareAppend(program, id, before, {
      kind: 'reassigned',
      ...(printer !== undefined && { printer }),
      ...(spool !== undefined && { spool }),
    });
    const isOvertaken = before.log.length !== revision || (await appendEvent(db, append)) === 'stale';
    if (isOvertaken) answer.overtaken.push({ caseId, number });
    else
      answer.back.push({
        caseId,
        revision: append.logged.seq,
        ...(printer !== undefined && { printerId: printer_id }),
        ...(spool !== undefined && { spoolId: spool_id }),
      });
  }
  return answer;

  async function namesOf(table: 'printers' | 'spools'): Promise<ReadonlyMap<string, string>> {
    const rows = await db.selectFrom(table).select(['id', 'label']).execute();
    return new Map(rows.map(({ id, label }) => [id, label]));
  }
};

function named(names: ReadonlyMap<string, string>, id: string | null | undefined, what: string) {
  if (id === undefined || id === null) return id;
  const label = names.get(id);
  if (label === undefined) throw new DomainError('not-found', `there is no such ${what} in this shop`);
  return { id, label };
}
