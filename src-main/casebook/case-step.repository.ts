import type { ShopCosts } from '../../src-core/contract/shop-costs.ts';
import type { CaseStep, Ranking } from '../../src-core/session/case-step.ts';
import type { CasebookDb } from './casebook.ts';
import { pack, unpack } from './packed.ts';

/** What a kept step was made under: under anything else it is worked out anew. */
export interface MadeUnder {
  readonly knowledgeVersion: string;
  readonly engineVersion: string;
  /** Those that planning counts with. */
  readonly costs: ShopCosts | null;
}

/** Candidates kept for each entry, for "how it went, step by step". */
const KEPT_CANDIDATES = 6;
const ROWS_AT_ONCE = 1000;

/** The kept step of a case at this revision; null where there is none, or one that was made under something else. */
export async function readStep(
  db: CasebookDb,
  caseId: string,
  revision: number,
  under: MadeUnder,
): Promise<CaseStep | null> {
  const row = await db.selectFrom('case_steps').selectAll().where('case_id', '=', caseId).executeTakeFirst();
  const isToday =
    row?.revision === revision &&
    row.knowledge_version === under.knowledgeVersion &&
    row.engine_version === under.engineVersion &&
    row.costs_json === JSON.stringify(under.costs);
  // Its form is that of the engine's version, so that whole means right.
  return isToday ? ((unpack(row.step_deflated) as CaseStep | undefined) ?? null) : null;
}

/** Keeps the newest step of a case in the place of the one before. Within the caller's transaction. */
export async function writeStep(
  trx: CasebookDb,
  caseId: string,
  step: CaseStep,
  { knowledgeVersion, engineVersion, costs }: MadeUnder,
): Promise<void> {
  const values = {
    revision: step.revision,
    knowledge_version: knowledgeVersion,
    engine_version: engineVersion,
    costs_json: JSON.stringify(costs),
    step_deflated: pack(step),
  };
  await trx
    .insertInto('case_steps')
    .values({ case_id: caseId, ...values })
    .onConflict((conflict) => conflict.column('case_id').doUpdateSet(values))
    .execute();
}

/** The first candidates after each entry, by its number, where they were worked out under this guide and engine. */
export async function readRankings(
  db: CasebookDb,
  caseId: string,
  under: Pick<MadeUnder, 'knowledgeVersion' | 'engineVersion'>,
): Promise<ReadonlyMap<number, Ranking>> {
  const rows = await db
    .selectFrom('case_rankings')
    .select(['seq', 'ranking_json'])
    .where('case_id', '=', caseId)
    .where('knowledge_version', '=', under.knowledgeVersion)
    .where('engine_version', '=', under.engineVersion)
    .execute();
  return new Map(rows.map(({ seq, ranking_json }) => [seq, JSON.parse(ranking_json) as Ranking]));
}

/** Keeps the first candidates after entries. Within the caller's transaction. */
export async function writeRankings(
  trx: CasebookDb,
  caseId: string,
  rankings: readonly { readonly seq: number; readonly ranking: Ranking }[],
  { knowledgeVersion, engineVersion }: Pick<MadeUnder, 'knowledgeVersion' | 'engineVersion'>,
): Promise<void> {
  for (let from = 0; from < rankings.length; from += ROWS_AT_ONCE) {
    await trx
      .insertInto('case_rankings')
      .values(
        rankings.slice(from, from + ROWS_AT_ONCE).map(({ seq, ranking }) => ({
          case_id: caseId,
          seq,
          knowledge_version: knowledgeVersion,
          engine_version: engineVersion,
          ranking_json: JSON.stringify(ranking.slice(0, KEPT_CANDIDATES)),
        })),
      )
      .onConflict((conflict) =>
        conflict.columns(['case_id', 'seq']).doUpdateSet((eb) => ({
          knowledge_version: eb.ref('excluded.knowledge_version'),
          engine_version: eb.ref('excluded.engine_version'),
          ranking_json: eb.ref('excluded.ranking_json'),
        })),
      )
      .execute();
  }
}
