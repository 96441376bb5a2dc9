import {
  trainingResultSchema,
  type KeptResult,
  type TrainingResult,
} from '../../src-core/contract/training-results.ts';
import type { CasebookDb } from './casebook.ts';

export interface PersonsResults {
  readonly personId: string;
  /** Oldest first, without those that this version cannot read. */
  readonly results: readonly KeptResult[];
  readonly unreadable: number;
}

/** Results of everybody, or of one person, by person. */
export async function listTrainingResults(
  db: CasebookDb,
  personId?: string,
): Promise<ReadonlyMap<string, PersonsResults>> {
  let query = db.selectFrom('training_results').selectAll().orderBy('at').orderBy('id');
  if (personId !== undefined) query = query.where('person_id', '=', personId);
  const rows = await query.execute();
  return new Map(
    [...Map.groupBy(rows, (row) => row.person_id)].map(([id, own]) => {
      const results = own.flatMap((row) => {
        const result = resultOf(row.result_json);
        return result ? [{ resultId: row.id, at: row.at, result }] : [];
      });
      return [id, { personId: id, results, unreadable: own.length - results.length }];
    }),
  );
}

/** Keeps a result; "there", with nothing written, where one of that id is kept already. */
export async function keepTrainingResult(
  db: CasebookDb,
  personId: string,
  { resultId, at, result }: KeptResult,
): Promise<'kept' | 'there'> {
  const written = await db
    .insertInto('training_results')
    .values({ id: resultId, person_id: personId, at, result_json: JSON.stringify(result) })
    .onConflict((conflict) => conflict.column('id').doNothing())
    .executeTakeFirst();
  return written.numInsertedOrUpdatedRows === 0n ? 'there' : 'kept';
}

/** Everything that is kept of a person's training, as it lies: a line of JSON for each result. */
export async function exportTrainingResults(db: CasebookDb, personId: string): Promise<readonly string[]> {
  const rows = await db
    .selectFrom('training_results')
    .select(['id', 'at', 'result_json'])
    .where('person_id', '=', personId)
    .orderBy('at')
    .orderBy('id')
    .execute();
  return rows.map(({ id, at, result_json }) => `{"resultId":"${id}","at":"${at}","result":${result_json}}`);
}

/** Deletes everything that is kept of a person's training. Copies in backups go with their backups. */
export async function forgetTrainingResults(db: CasebookDb, personId: string): Promise<void> {
  await db.deleteFrom('training_results').where('person_id', '=', personId).execute();
}

function resultOf(json: string): TrainingResult | null {
  try {
    return trainingResultSchema.parse(JSON.parse(json));
  } catch {
    return null;
  }
}
