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
 * where that step is not there. Within the caller's transaction.
 */
export async function keepConclusion(trx: CasebookDb, entry: NewestEntry): Promise<void> {
  const conclusion = await stillInStep(trx, entry);
  if (!conclusion) return;
  const values = {
    revision: entry.revision,
    knowledge_version: entry.knowledgeVersion,
    engine_version: entry.engineVersion,
    conclusion_json: JSON.stringify(conclusion),
  };
  await trx
    .insertInto('case_conclusions')
    .values({ case_id: entry.caseId, ...values })
    .onConflict((conflict) => conflict.column('case_id').doUpdateSet(values))
    .execute();
}

/** What a case concluded with its newest entry, as it was kept; null where it was not. */
export async function readConclusion(db: CasebookDb, entry: NewestEntry): Promise<CaseConclusion | null> {
  const row = await db
    .selectFrom('case_conclusions')
    .select('conclusion_json')
    .where('case_id', '=', entry.caseId)
    .where('revision', '=', entry.revision)
    .where('knowledge_version', '=', entry.knowledgeVersion)
    .where('engine_version', '=', entry.engineVersion)
    .executeTakeFirst();
  if (!row) return stillInStep(db, entry);
  const read = caseConclusionSchema.safeParse(JSON.parse(row.conclusion_json));
  return read.success ? read.data : null;
}

async function stillInStep(db: CasebookDb, entry: NewestEntry): Promise<CaseConclusion | null> {
  const row = await db
    .selectFrom('case_steps')
    .select('step_deflated')
    .where('case_id', '=', entry.caseId)
    .where('revision', '=', entry.revision)
    .where('knowledge_version', '=', entry.knowledgeVersion)
    .where('engine_version', '=', entry.engineVersion)
    .executeTakeFirst();
  return row ? conclusionOf(unpack(row.step_deflated)) : null;
}
