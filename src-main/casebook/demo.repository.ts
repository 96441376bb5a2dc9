import type { CasebookDb } from './casebook.ts';
import { deletePrinters, deleteSpools } from './record-removal.repository.ts';

/**
 * Removes everything that came with the demo shop, in one transaction. Demo printers and spools that a case of the
 * shop's own refers to stay and become the shop's own: nothing entered by hand is lost.
 */
export async function removeDemoRecords(db: CasebookDb): Promise<void> {
  await db.transaction().execute(async (trx) => {
    const demoCases = trx.selectFrom('cases').select('id').where('is_demo', '=', 1);
    await trx.deleteFrom('case_causes').where('case_id', 'in', demoCases).execute();
    await trx.deleteFrom('case_steps').where('case_id', 'in', demoCases).execute();
    await trx.deleteFrom('case_rankings').where('case_id', 'in', demoCases).execute();
    await trx.deleteFrom('case_events').where('case_id', 'in', demoCases).execute();
    await trx.deleteFrom('cases').where('is_demo', '=', 1).execute();
    await trx.deleteFrom('binned_cases').where('rows_json', 'like', '%"is_demo":1%').execute();
    const demoActions = trx.selectFrom('actions').select('id').where('is_demo', '=', 1);
    await trx.deleteFrom('action_events').where('action_id', 'in', demoActions).execute();
    await trx.deleteFrom('actions').where('is_demo', '=', 1).execute();
    const usedPrinters = trx.selectFrom('cases').select('printer_id').where('printer_id', 'is not', null);
    const usedSpools = trx.selectFrom('cases').select('spool_id').where('spool_id', 'is not', null);
    await trx
      .updateTable('printers')
      .set({ is_demo: 0 })
      .where('is_demo', '=', 1)
      .where('id', 'in', usedPrinters)
      .execute();
    await trx
      .updateTable('spools')
      .set({ is_demo: 0 })
      .where('is_demo', '=', 1)
      .where('id', 'in', usedSpools)
      .execute();
    const idsOf = async (table: 'printers' | 'spools') =>
      (await trx.selectFrom(table).select('id').where('is_demo', '=', 1).execute()).map(({ id }) => id);
    await deletePrinters(trx, await idsOf('printers'));
    await deleteSpools(trx, await idsOf('spools'));
    const demoPeople = trx.selectFrom('people').select('id').where('is_demo', '=', 1);
    await trx.deleteFrom('training_results').where('person_id', 'in', demoPeople).execute();
    await trx.deleteFrom('people').where('is_demo', '=', 1).execute();
  });
}
