import type { KeptCase } from '../../src-core/learning/guide-use.ts';
import type { LoggedEvent } from '../../src-core/session/logged-event.ts';
import type { Ranking } from '../../src-core/session/case-step.ts';
import type { CasebookDb } from './casebook.ts';
import { readStoredEvent } from './stored-event.ts';

/** Cases whose logs are read in one go; between two lots others get their turn. */
const AT_ONCE = 200;

/** The newest closed cases, `most` of them: the shop's own, or those of the demo where it has none. */
export async function listNewestClosed(
  db: CasebookDb,
  most: number,
): Promise<{ readonly caseIds: readonly string[]; readonly isMore: boolean; readonly isDemo: boolean }> {
  const ofKind = (isDemo: number) =>
    db
      .selectFrom('cases')
      .select('id')
      .where('state', '=', 'closed')
      .where('closed_at', 'is not', null)
      .where('is_demo', '=', isDemo)
      .orderBy('closed_at', 'desc')
      .orderBy('number', 'desc')
      .limit(most + 1)
      .execute();
  const own = await ofKind(0);
  const rows = own.length > 0 ? own : await ofKind(1);
  return {
    caseIds: rows.slice(0, most).map(({ id }) => id),
    isMore: rows.length > most,
    isDemo: own.length === 0 && rows.length > 0,
  };
}

/** These cases as they were kept: their logs, and the first candidates after each entry, of whatever guide they are. */
export async function* readKeptCases(
  db: CasebookDb,
  caseIds: readonly string[],
): AsyncGenerator<readonly KeptCase[]> {
  for (const lot of lotsOf(caseIds)) {
    const names = await db.selectFrom('cases').select(['id', 'number']).where('id', 'in', lot).execute();
    const logs = await logsOf(db, lot);
    const rankings = await db
      .selectFrom('case_rankings')
      .select(['case_id', 'seq', 'ranking_json'])
      .where('case_id', 'in', lot)
      .execute();
    const kept = Map.groupBy(rankings, ({ case_id }) => case_id);
    yield names.map(({ id, number }) => ({
      name: { caseId: id, number },
      log: logs.get(id) ?? [],
      rankings: new Map(
        (kept.get(id) ?? []).map(({ seq, ranking_json }) => [seq, JSON.parse(ranking_json) as Ranking]),
      ),
    }));
  }
}

/** Their logs alone, by case. */
export async function* readLogs(
  db: CasebookDb,
  caseIds: readonly string[],
): AsyncGenerator<ReadonlyMap<string, readonly LoggedEvent[]>> {
  for (const lot of lotsOf(caseIds)) yield await logsOf(db, lot);
}

function* lotsOf(caseIds: readonly string[]): Generator<readonly string[]> {
  for (let from = 0; from < caseIds.length; from += AT_ONCE) yield caseIds.slice(from, from + AT_ONCE);
}

async function logsOf(
  db: CasebookDb,
  caseIds: readonly string[],
): Promise<ReadonlyMap<string, readonly LoggedEvent[]>> {
  const rows = await db
    .selectFrom('case_events')
    .select(['case_id', 'seq', 'at', 'event_json'])
    .where('case_id', 'in', caseIds)
    .orderBy('case_id')
    .orderBy('seq')
    .execute();
  const logs = Map.groupBy(rows, ({ case_id }) => case_id);
  return new Map([...logs].map(([id, own]) => [id, own.map((row) => readStoredEvent(row).logged)]));
}
