import type { CasebookDb } from './casebook.ts';

/** All cases that are under way, oldest first. */
export function listOpenCases(db: CasebookDb) {
  return db
    .selectFrom('cases')
    .selectAll()
    .where('state', '!=', 'closed')
    .where('state', '!=', 'merged')
    .orderBy('opened_at')
    .orderBy('id')
    .execute();
}

export async function countClosedCases(db: CasebookDb): Promise<number> {
  const { count } = await db
    .selectFrom('cases')
    .select((eb) => eb.fn.countAll().as('count'))
    .where('state', '=', 'closed')
    .executeTakeFirstOrThrow();
  return Number(count);
}

/** The newest closed case of a spool that confirmed a cause. */
export function newestCaseOfSpool(db: CasebookDb, spoolId: string, cause: string) {
  return db
    .selectFrom('cases')
    .innerJoin('case_causes', 'case_causes.case_id', 'cases.id')
    .select(['cases.id', 'cases.number', 'cases.closed_at'])
    .where('cases.spool_id', '=', spoolId)
    .where('cases.state', '=', 'closed')
    .where('case_causes.cause', '=', cause)
    .where('cases.closed_at', 'is not', null)
    .orderBy('cases.closed_at', 'desc')
    .limit(1)
    .executeTakeFirst();
}

/** The closed cases of a printer or a spool, the latest first. */
export function listPastCases(
  db: CasebookDb,
  of: { readonly printerId: string | null; readonly spoolId: string | null },
  limit: number,
) {
  return db
    .selectFrom('cases')
    .selectAll()
    .where('state', '=', 'closed')
    .where('closed_at', 'is not', null)
    .where((eb) =>
      eb.or([
        ...(of.printerId === null ? [] : [eb('printer_id', '=', of.printerId)]),
        ...(of.spoolId === null ? [] : [eb('spool_id', '=', of.spoolId)]),
      ]),
    )
    .orderBy('closed_at', 'desc')
    .limit(limit)
    .execute();
}
