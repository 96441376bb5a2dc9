import {
  caseConclusionSchema,
  conclusionOf,
  type CaseConclusion,
} from '../../src-core/session/case-conclusion.ts';
import type { CasebookDb } from './casebook.ts';
import { unpack } from './packed.ts';

/** A case's newest entry: how long its log is with it, and under what it was made. */
export interface NewestEntry {
  readonly caseId: string;
  readonly revision: number;
  readonly knowledgeVersion: string;
  readonly engineVersion: string;
}

/**
 * Keeps what a case concluded with its newest entry, before another step takes the place of the one made then. Does nothing
 * where that step is not there, or where its conclusion was kept already: what stands there now was made anew, under other
 * costs. Within the caller's transaction.
 */
export async function keepConclusion(trx: CasebookDb, entry: NewestEntry): Promise<void> {
  if ((await keptConclusion(trx, entry)) !== undefined) return;
  const conclusion = await stillInStep(trx, entry);
  if (!conclusion) return;
  const row = { ...columnsOf(entry), conclusion_json: JSON.stringify(conclusion) };
  await trx
    .insertInto('case_conclusions')
    .values(row)
    .onConflict((conflict) => conflict.column('case_id').doUpdateSet(row))
    .execute();
}

/** What a case concluded with its newest entry, as it was kept; null where it was not. */
export async function readConclusion(db: CasebookDb, entry: NewestEntry): Promise<CaseConclusion | null> {
  const json = await keptConclusion(db, entry);
  if (json === undefined) return stillInStep(db, entry);
  const read = caseConclusionSchema.safeParse(JSON.parse(json));
  return read.success ? read.data : null;
}

async function keptConclusion(db: CasebookDb, entry: NewestEntry): Promise<string | undefined> {
  const row = await db
    .selectFrom('case_conclusions')
    .select('conclusion_json')
    .where((eb) => eb.and(columnsOf(entry)))
    .executeTakeFirst();
  return row?.conclusion_json;
}

async function stillInStep(db: CasebookDb, entry: NewestEntry): Promise<CaseConclusion | null> {
  const row = await db
    .selectFrom('case_steps')
    .select('step_deflated')
    .where((eb) => eb.and(columnsOf(entry)))
    .executeTakeFirst();
  return row ? conclusionOf(unpack(row.step_deflated)) : null;
}

/** Both tables hold one row a case, and say alike what it was made under. */
function columnsOf({ caseId, revision, knowledgeVersion, engineVersion }: NewestEntry) {
  return {
    case_id: caseId,
    revision,
    knowledge_version: knowledgeVersion,
    engine_version: engineVersion,
  };
}
