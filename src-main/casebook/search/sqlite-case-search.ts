import { sql, type RawBuilder } from 'kysely';
import { CASE_ORDERS } from '../../../src-core/contract/case-orders.ts';
import type { CaseFilter } from '../../../src-core/contract/casebook-view.ts';
import { inOrder, ORDER_COLUMNS } from '../case-order.ts';
import type { CasebookDb } from '../casebook.ts';
import { MOST_COUNTED, type CaseHits, type CaseSearch } from './case-search.ts';
import { allOf, anyMark, ftsOf, marksOf, stateMark } from './fts-expression.ts';

/** Where a case stands in the index. Letter for letter that of the index `cases_by_position`, which is used only then. */
const POSITION = sql.raw<number>(
  "cast((cast(round(coalesce(unixepoch(cases.opened_at, 'subsec'), 0) * 1000) as integer) << 20) + (cases.number & 1048575) as integer)",
);
/** From a time on (ISO 8601), as positions go. */
const positionFrom = (time: string) =>
  sql`(cast(round(unixepoch(${time}, 'subsec') * 1000) as integer) << 20)`;

/**
 * FTS5: rows come in the order of time without sorting, marks narrow them by state, printer and the like inside the index, and
 * counting ends at {@link MOST_COUNTED}. Only another order than that of time, or a least loss, looks at the cases themselves.
 */
export const sqliteCaseSearch: CaseSearch = {
  async find(db, filter, sought) {
    const words = ftsOf(sought);
    if (words === null) return { numbers: [], byState: new Map(), isMore: false };
    const parts = [words, ...marksOf(filter).map((mark) => anyMark([mark]))];
    const counted = await countHits(db, filter, parts);
    return { ...counted, numbers: await pageOf(db, filter, parts) };
  },
};

async function pageOf(
  db: CasebookDb,
  filter: CaseFilter,
  parts: readonly string[],
): Promise<readonly number[]> {
  const states = filter.states.length === 0 ? [] : [anyMark(filter.states.map(stateMark))];
  const { column, isDown } = CASE_ORDERS[filter.order];
  const paged = sql`limit ${filter.limit} offset ${filter.offset}`;
  const match = matching([...parts, ...states], filter);
  const found =
    column === 'opened' && !looksAtCases(filter)
      ? sql<{ number: number }>`
          with hits as materialized (
            select rowid as position from case_search where ${match}
            order by rowid ${sql.raw(isDown ? 'desc' : 'asc')} ${paged})
          select cases.number from hits cross join cases on ${POSITION} = hits.position
          order by hits.position ${sql.raw(isDown ? 'desc' : 'asc')}`
      : sql<{ number: number }>`
          select cases.number from case_search cross join cases on ${POSITION} = case_search.rowid
          left join printers on printers.id = cases.printer_id left join spools on spools.id = cases.spool_id
          where ${match} and ${ofCases(filter)}
          order by ${sql.raw(inOrder(ORDER_COLUMNS[column], isDown))} ${paged}`;
  return (await found.execute(db)).rows.map(({ number }) => number);
}

/** All tabs in one query: open cases, which are few, state by state, and the closed ones by the index alone. */
async function countHits(
  db: CasebookDb,
  filter: CaseFilter,
  parts: readonly string[],
): Promise<Omit<CaseHits, 'numbers'>> {
  const most = sql.lit(MOST_COUNTED + 1);
  const open = matching([...parts, anyMark(['open'])], filter);
  const closed = matching([...parts, anyMark([stateMark('closed')])], filter);
  const closedHits = looksAtCases(filter)
    ? sql`select 1 from case_search cross join cases on ${POSITION} = case_search.rowid
          where ${closed} and ${ofCases(filter)} limit ${most}`
    : sql`select 1 from case_search where ${closed} limit ${most}`;
  const { rows } = await sql<{ state: string; n: number }>`
    select state, count(*) as n from (
      select cases.state as state from case_search cross join cases on ${POSITION} = case_search.rowid
      where ${open} and ${ofCases(filter)} limit ${most}) group by state
    union all
    select 'closed', count(*) from (${closedHits})`.execute(db);
  const byState = new Map(rows.map(({ state, n }) => [state, Math.min(n, MOST_COUNTED)]));
  const all = rows.reduce((sum, { n }) => sum + n, 0);
  return { byState, isMore: all > MOST_COUNTED };
}

function matching(parts: readonly string[], filter: CaseFilter): RawBuilder<unknown> {
  return sql.join(
    [
      sql`case_search match ${allOf(parts)}`,
      ...(filter.openedFrom === null ? [] : [sql`case_search.rowid >= ${positionFrom(filter.openedFrom)}`]),
      ...(filter.openedTo === null ? [] : [sql`case_search.rowid < ${positionFrom(filter.openedTo)}`]),
    ],
    sql` and `,
  );
}

/** What the index does not hold. */
function looksAtCases(filter: CaseFilter): boolean {
  return filter.leastMinutes > 0 || filter.leastGrams > 0;
}

function ofCases({ leastMinutes, leastGrams }: CaseFilter): RawBuilder<unknown> {
  return sql`cases.minutes_lost >= ${leastMinutes} and cases.grams_scrapped >= ${leastGrams}`;
}
