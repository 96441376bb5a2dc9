import type { CasebookDb } from './casebook.ts';

/** Takes printers out of the shop with their own logs: meter readings and maintenance. Belongs in a transaction of the caller's. */
export async function deletePrinters(trx: CasebookDb, ids: readonly string[]): Promise<void> {
  if (ids.length === 0) return;
  await trx.deleteFrom('hour_readings').where('printer_id', 'in', ids).execute();
  await trx.deleteFrom('maintenance_events').where('printer_id', 'in', ids).execute();
  // A tablet that stood there still knows its way in.
  for (const table of ['devices', 'join_codes'] as const)
    await trx.updateTable(table).set({ printer_id: null }).where('printer_id', 'in', ids).execute();
  await trx.deleteFrom('printers').where('id', 'in', ids).execute();
}

/** Takes spools off the shelf with their own logs. Belongs in a transaction of the caller's. */
export async function deleteSpools(trx: CasebookDb, ids: readonly string[]): Promise<void> {
  if (ids.length === 0) return;
  await trx.deleteFrom('spool_events').where('spool_id', 'in', ids).execute();
  await trx.deleteFrom('spools').where('id', 'in', ids).execute();
}

/** How many cases name a printer or spool, whatever their state; those in the bin do not count. */
export async function countCasesNaming(
  db: CasebookDb,
  kind: 'printer' | 'spool',
  id: string,
): Promise<number> {
  const { count } = await db
    .selectFrom('cases')
    .select(({ fn }) => fn.countAll().as('count'))
    .where(kind === 'printer' ? 'printer_id' : 'spool_id', '=', id)
    .executeTakeFirstOrThrow();
  return Number(count);
}
