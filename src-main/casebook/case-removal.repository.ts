import type { CasebookDb } from './casebook.ts';

/** SQLite takes some 32,000 values in one statement. */
const AT_ONCE = 1000;

/** Deletes cases with everything that belongs to them alone; within the caller's transaction. */
export async function deleteCases(trx: CasebookDb, ids: readonly string[]): Promise<void> {
  for (let from = 0; from < ids.length; from += AT_ONCE) {
    const lot = ids.slice(from, from + AT_ONCE);
    for (const table of [
      'case_causes',
      'case_steps',
      'case_rankings',
      'case_conclusions',
      'case_events',
    ] as const)
      await trx.deleteFrom(table).where('case_id', 'in', lot).execute();
    await trx.deleteFrom('cases').where('id', 'in', lot).execute();
  }
}
