import { sql, type SelectQueryBuilder } from 'kysely';
import { CASE_ORDERS } from '../../../src-core/contract/case-orders.ts';
import type { CaseFilter } from '../../../src-core/contract/casebook-view.ts';
import { inOrder, ORDER_COLUMNS } from '../case-order.ts';
import type { CasebookDb } from '../casebook.ts';
import type { Tables } from '../tables.ts';
import type { CaseHits } from './case-search.ts';

/**
 * Cases by their fields alone: indexes hold what the filter and the order ask for, and the page's cases are read by
 * number.
 */
export async function findByFilter(db: CasebookDb, filter: CaseFilter): Promise<CaseHits> {
  const fitting = filteredCases(db, filter);
  const counted = await countByState(db, fitting, !isFilter(filter));
  const { column, isDown } = CASE_ORDERS[filter.order];
  let page = (filter.states.length > 0 ? fitting.where('cases.state', 'in', filter.states) : fitting).select(
    'cases.number',
  );
  const { of } = ORDER_COLUMNS[column];
  if (of.startsWith('printers.')) page = page.leftJoin('printers', 'printers.id', 'cases.printer_id');
  if (of.startsWith('spools.')) page = page.leftJoin('spools', 'spools.id', 'cases.spool_id');
  const rows = await page
    .orderBy(sql.raw(inOrder(ORDER_COLUMNS[column], isDown)))
    .limit(filter.limit)
    .offset(filter.offset)
    .execute();
  return { numbers: rows.map(({ number }) => number), byState: counted, isMore: false };
}

type Cases = SelectQueryBuilder<Tables, 'cases', object>;

/** Cases that fit the filter, whatever their state; a cause is the index's business. */
function filteredCases(db: CasebookDb, filter: CaseFilter): Cases {
  let query: Cases = db.selectFrom('cases');
  if (filter.printerId) query = query.where('cases.printer_id', '=', filter.printerId);
  if (filter.spoolId) query = query.where('cases.spool_id', '=', filter.spoolId);
  if (filter.openedBy) query = query.where('cases.opened_by', '=', filter.openedBy);
  if (filter.practice) query = query.where('cases.practice', '=', filter.practice);
  if (filter.profile) query = query.where('cases.profile', '=', filter.profile);
  if (filter.openedFrom) query = query.where('cases.opened_at', '>=', filter.openedFrom);
  if (filter.openedTo) query = query.where('cases.opened_at', '<', filter.openedTo);
  if (filter.closedFrom) query = query.where('cases.closed_at', '>=', filter.closedFrom);
  if (filter.closedTo) query = query.where('cases.closed_at', '<', filter.closedTo);
  if (filter.leastMinutes > 0) query = query.where('cases.minutes_lost', '>=', filter.leastMinutes);
  if (filter.leastGrams > 0) query = query.where('cases.grams_scrapped', '>=', filter.leastGrams);
  return query;
}

/**
 * One query for all tabs of the list. Where nothing is filtered, only open cases are looked at: the closed ones are all
 * others, and how many rows a table has is soon counted.
 */
async function countByState(
  db: CasebookDb,
  fitting: Cases,
  isAll: boolean,
): Promise<ReadonlyMap<string, number>> {
  const asGroups = (query: Cases) =>
    query.select(['cases.state as state', ({ fn }) => fn.countAll().as('count')]).groupBy('cases.state');
  const counted = !isAll
    ? await asGroups(fitting).execute()
    : await asGroups(fitting.where('cases.state', '<>', 'closed'))
        .unionAll(
          db.selectNoFrom([
            sql.lit<string>('closed').as('state'),
            sql<number>`(select count(*) from cases) - (select count(*) from cases where state <> 'closed')`.as(
              'count',
            ),
          ]),
        )
        .execute();
  return new Map(
    counted.map(({ state, count }) => [state, Number(count)] as const).filter(([, count]) => count > 0),
  );
}

function isFilter(filter: CaseFilter): boolean {
  const { printerId, spoolId, openedBy, practice, profile } = filter;
  const { openedFrom, openedTo, closedFrom, closedTo } = filter;
  const chosen = [
    printerId,
    spoolId,
    openedBy,
    practice,
    profile,
    openedFrom,
    openedTo,
    closedFrom,
    closedTo,
  ];
  return chosen.some((one) => one !== null) || filter.leastMinutes > 0 || filter.leastGrams > 0;
}
