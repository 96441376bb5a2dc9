import type { CasebookDb } from './casebook.ts';

/** All cases that are not closed, oldest first. */
export function listOpenCases(db: CasebookDb) {
  return db
    .selectFrom('cases')
    .selectAll()
    .where('state', '!=', 'closed')
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
