import { sql, type RawBuilder } from 'kysely';
import { CASE_ORDERS } from '../../../src-core/contract/case-orders.ts';
import type { CaseFilter } from '../../../src-core/contract/casebook-view.ts';
import { inOrder, ORDER_COLUMNS } from '../case-order.ts';
import type { CasebookDb } from '../casebook.ts';
import { hitsOf, MOST_COUNTED, type CaseSearch } from './case-search.ts';
import { tsMarksOf, tsQueryOf } from './tsquery-expression.ts';

/**
 * A tsvector a case under a GIN index (`postgres/2026-12-07-case-search.ts`). What few cases hold is found through that; of what
 * many hold, the newest are met on the way through the index by time. Which way is shorter, PostgreSQL decides by its own counts.
 */
export const postgresCaseSearch: CaseSearch = {
  async find(db, filter, sought) {
    const words = tsQueryOf(sought);
    const parts = [...(words === null ? [] : [words]), ...tsMarksOf(filter)];
    if (parts.length === 0) return null;
    const matching = matchingOf(parts.join(' & '), filter);
    const open = await countOpen(db, matching);
    const all = await countAll(db, matching);
    return hitsOf(await pageOf(db, filter, matching, all > MOST_COUNTED), open, all);
  },
};

async function pageOf(
  db: CasebookDb,
  filter: CaseFilter,
  matching: RawBuilder<unknown>,
  areMany: boolean,
): Promise<readonly number[]> {
  const { column, isDown } = CASE_ORDERS[filter.order];
  const states =
    filter.states.length === 0
      ? sql`true`
      : sql`case_search.state in (${sql.join(filter.states.map((state) => sql`${state}`))})`;
  const paged = sql`limit ${filter.limit} offset ${filter.offset}`;
  const way = sql.raw(isDown ? 'desc' : 'asc');
  // PostgreSQL takes no beginning of a word for rarer than one in two hundred, and would walk through all of time for a word that
  // hardly any case has: only where many fit is the order an index's own.
  const isWalked = areMany && (filter.states.length === 0 || filter.states.includes('closed'));
  const openedAt = isWalked ? sql`case_search.opened_at` : sql`(case_search.opened_at || '')`;
  const { rows } = await (
    column === 'opened'
      ? sql<{ number: number }>`
          select case_search.number from ${matching} and ${states}
          order by ${openedAt} ${way}, case_search.number ${way} ${paged}`
      : sql<{ number: number }>`
          select cases.number from ${matching} and ${states}
          order by ${sql.raw(inOrder(ORDER_COLUMNS[column], isDown))} ${paged}`
  ).execute(db);
  return rows.map(({ number }) => number);
}

/** How many fit, up to one more than are counted. */
async function countAll(db: CasebookDb, matching: RawBuilder<unknown>): Promise<number> {
  const { rows } = await sql<{ n: number }>`
    select count(*) as n from (select 1 from ${matching} limit ${sql.lit(MOST_COUNTED + 1)}) as hits`.execute(
    db,
  );
  return rows[0]?.n ?? 0;
}

/** Open cases that fit, state by state: they are few. */
async function countOpen(
  db: CasebookDb,
  matching: RawBuilder<unknown>,
): Promise<ReadonlyMap<string, number>> {
  const { rows } = await sql<{ state: string; n: number }>`
    select case_search.state, count(*) as n from ${matching} and case_search.state <> 'closed'
    group by case_search.state`.execute(db);
  return new Map(rows.map(({ state, n }) => [state, n]));
}

/** "FROM … WHERE …": the index alone where that knows all that is asked. */
function matchingOf(query: string, filter: CaseFilter): RawBuilder<unknown> {
  const { column } = CASE_ORDERS[filter.order];
  const { leastMinutes, leastGrams, closedFrom, closedTo } = filter;
  const looksAtCases =
    leastMinutes > 0 || leastGrams > 0 || closedFrom !== null || closedTo !== null || column !== 'opened';
  const from = looksAtCases
    ? sql`case_search join cases on cases.id = case_search.case_id
          left join printers on printers.id = cases.printer_id left join spools on spools.id = cases.spool_id`
    : sql`case_search`;
  const conditions = [
    sql`case_search.words @@ ${query}::tsquery`,
    ...(filter.openedFrom === null ? [] : [sql`case_search.opened_at >= ${filter.openedFrom}`]),
    ...(filter.openedTo === null ? [] : [sql`case_search.opened_at < ${filter.openedTo}`]),
    ...(closedFrom === null ? [] : [sql`cases.closed_at >= ${closedFrom}`]),
    ...(closedTo === null ? [] : [sql`cases.closed_at < ${closedTo}`]),
    ...(leastMinutes > 0 ? [sql`cases.minutes_lost >= ${leastMinutes}`] : []),
    ...(leastGrams > 0 ? [sql`cases.grams_scrapped >= ${leastGrams}`] : []),
  ];
  return sql`${from} where ${sql.join(conditions, sql` and `)}`;
}
