import { sql, type RawBuilder } from 'kysely';
import { CASE_ORDERS } from '../../../src-core/contract/case-orders.ts';
import type { CaseFilter } from '../../../src-core/contract/casebook-view.ts';
import { inOrder, ORDER_COLUMNS } from '../case-order.ts';
import type { CasebookDb } from '../casebook.ts';
import { hitsOf, MOST_COUNTED, type CaseSearch } from './case-search.ts';
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
    const parts = [...(words === null ? [] : [words]), ...marksOf(filter).map((mark) => anyMark([mark]))];
    if (parts.length === 0) return null;
    if (filter.states.length > 0 || !isByTime(filter) || filter.offset + filter.limit > MOST_COUNTED) {
      const open = await countOpen(db, filter, parts);
      return hitsOf(await pageOf(db, filter, parts), open, await countAll(db, filter, parts));
    }
    const { page, all } = await pageAndCount(db, filter, parts);
    // Where one page shows them all, it knows which of them are open.
    const open = page.length === all ? openAmong(page) : await countOpen(db, filter, parts);
    return hitsOf(
      page.map(({ number }) => number),
      open,
      all,
    );
  },
};

/** The usual search: the newest (or oldest) that fit, and how many fit, in one go through the index. */
async function pageAndCount(
  db: CasebookDb,
  filter: CaseFilter,
  parts: readonly string[],
): Promise<{ readonly page: readonly Hit[]; readonly all: number }> {
  const way = sql.raw(CASE_ORDERS[filter.order].isDown ? 'desc' : 'asc');
  const { rows } = await sql<{ number: number | null; state: string; n: number }>`
    with hits as materialized (
      select rowid as position from case_search where ${matching(parts, filter)}
      order by rowid ${way} limit ${sql.lit(MOST_COUNTED + 1)}),
    page as materialized (
      select position from hits order by position ${way} limit ${filter.limit} offset ${filter.offset})
    select counted.n, cases.number, cases.state from (select count(*) as n from hits) counted
    left join page left join cases on ${POSITION} = page.position
    order by page.position ${way}`.execute(db);
  return {
    page: rows.flatMap(({ number, state }) => (number === null ? [] : [{ number, state }])),
    all: rows[0]?.n ?? 0,
  };
}

interface Hit {
  readonly number: number;
  readonly state: string;
}

/** How many of some cases are in each state but the closed one. */
function openAmong(hits: readonly Hit[]): ReadonlyMap<string, number> {
  const open = new Map<string, number>();
  for (const { state } of hits) if (state !== 'closed') open.set(state, (open.get(state) ?? 0) + 1);
  return open;
}

/** A page of some states, or in another order than that of time. */
async function pageOf(
  db: CasebookDb,
  filter: CaseFilter,
  parts: readonly string[],
): Promise<readonly number[]> {
  const states = filter.states.length === 0 ? [] : [anyMark(filter.states.map(stateMark))];
  const { column, isDown } = CASE_ORDERS[filter.order];
  const way = sql.raw(isDown ? 'desc' : 'asc');
  const paged = sql`limit ${filter.limit} offset ${filter.offset}`;
  const match = matching([...parts, ...states], filter);
  const found = isByTime(filter)
    ? sql<{ number: number }>`
        with hits as materialized (
          select rowid as position from case_search where ${match} order by rowid ${way} ${paged})
        select cases.number from hits cross join cases on ${POSITION} = hits.position
        order by hits.position ${way}`
    : sql<{ number: number }>`
        select cases.number from case_search cross join cases on ${POSITION} = case_search.rowid
        left join printers on printers.id = cases.printer_id left join spools on spools.id = cases.spool_id
        where ${match} and ${ofCases(filter)}
        order by ${sql.raw(inOrder(ORDER_COLUMNS[column], isDown))} ${paged}`;
  return (await found.execute(db)).rows.map(({ number }) => number);
}

/** How many fit, up to one more than are counted. */
async function countAll(db: CasebookDb, filter: CaseFilter, parts: readonly string[]): Promise<number> {
  const match = matching(parts, filter);
  const most = sql.lit(MOST_COUNTED + 1);
  const hits = looksAtCases(filter)
    ? sql`select 1 from case_search cross join cases on ${POSITION} = case_search.rowid
          where ${match} and ${ofCases(filter)} limit ${most}`
    : sql`select 1 from case_search where ${match} limit ${most}`;
  const { rows } = await sql<{ n: number }>`select count(*) as n from (${hits})`.execute(db);
  return rows[0]?.n ?? 0;
}

/** Open cases that fit, state by state: they are few, and the index knows them by a mark. */
async function countOpen(
  db: CasebookDb,
  filter: CaseFilter,
  parts: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  const open = matching([...parts, anyMark(['open'])], filter);
  const { rows } = await sql<{ state: string; n: number }>`
    select state, count(*) as n from (
      select cases.state as state from case_search cross join cases on ${POSITION} = case_search.rowid
      where ${open} and ${ofCases(filter)} limit ${sql.lit(MOST_COUNTED)}) group by state`.execute(db);
  return new Map(rows.map(({ state, n }) => [state, n]));
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

function isByTime(filter: CaseFilter): boolean {
  return CASE_ORDERS[filter.order].column === 'opened' && !looksAtCases(filter);
}

/** What the index does not hold. */
function looksAtCases(filter: CaseFilter): boolean {
  const { leastMinutes, leastGrams, closedFrom, closedTo } = filter;
  return leastMinutes > 0 || leastGrams > 0 || closedFrom !== null || closedTo !== null;
}

function ofCases({ leastMinutes, leastGrams, closedFrom, closedTo }: CaseFilter): RawBuilder<unknown> {
  return sql.join(
    [
      sql`cases.minutes_lost >= ${leastMinutes} and cases.grams_scrapped >= ${leastGrams}`,
      ...(closedFrom === null ? [] : [sql`cases.closed_at >= ${closedFrom}`]),
      ...(closedTo === null ? [] : [sql`cases.closed_at < ${closedTo}`]),
    ],
    sql` and `,
  );
}
