import type { ImportRecord } from '../../src-core/contract/spreadsheet-view.ts';
import { deleteCases } from './case-removal.repository.ts';
import type { CasebookDb } from './casebook.ts';

/** Keeps that these cases came in together; within the caller's transaction. */
export async function insertImport(
  trx: CasebookDb,
  { importId, at, fileName }: Pick<ImportRecord, 'importId' | 'at' | 'fileName'>,
  cases: readonly { readonly caseId: string; readonly revision: number }[],
): Promise<void> {
  await trx.insertInto('imports').values({ id: importId, at, file_name: fileName }).execute();
  for (const { caseId, revision } of cases)
    await trx
      .insertInto('import_cases')
      .values({ case_id: caseId, import_id: importId, revision })
      // One that was imported before, and taken away by hand since.
      .onConflict((conflict) => conflict.column('case_id').doUpdateSet({ import_id: importId, revision }))
      .execute();
}

/** All imports, the newest first, with how many of their cases are still here. */
export async function listImports(db: CasebookDb): Promise<ImportRecord[]> {
  const rows = await db
    .selectFrom('imports')
    .leftJoin('import_cases', 'import_cases.import_id', 'imports.id')
    .leftJoin('cases', 'cases.id', 'import_cases.case_id')
    .select(['imports.id', 'imports.at', 'imports.file_name'])
    .select(({ fn }) => [fn.count('import_cases.case_id').as('count'), fn.count('cases.id').as('left')])
    .groupBy(['imports.id', 'imports.at', 'imports.file_name'])
    .orderBy('imports.id', 'desc')
    .execute();
  return rows.map((row) => ({
    importId: row.id,
    at: row.at,
    fileName: row.file_name,
    count: Number(row.count),
    left: Number(row.left),
  }));
}

/**
 * Takes an import back: its cases go, but for those that somebody has worked on since, which stay and are counted. Within the
 * caller's transaction.
 */
export async function undoImport(
  trx: CasebookDb,
  importId: string,
): Promise<{ readonly removed: number; readonly kept: number }> {
  const rows = await trx
    .selectFrom('import_cases')
    .innerJoin('cases', 'cases.id', 'import_cases.case_id')
    .select(['cases.id as id', 'cases.revision as now', 'import_cases.revision as then'])
    .where('import_cases.import_id', '=', importId)
    .execute();
  const untouched = rows.filter(({ now, then }) => now === then).map(({ id }) => id);
  await deleteCases(trx, untouched);
  await trx.deleteFrom('import_cases').where('import_id', '=', importId).execute();
  await trx.deleteFrom('imports').where('id', '=', importId).execute();
  return { removed: untouched.length, kept: rows.length - untouched.length };
}
