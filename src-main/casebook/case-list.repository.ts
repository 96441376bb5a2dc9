import { sql, type SelectQueryBuilder } from 'kysely';
import { CASE_STATES, type CaseState } from '../../src-core/contract/case-view.ts';
import type { CaseFilter, CaseList } from '../../src-core/contract/casebook-view.ts';
import { plain } from '../../src-core/words/word-book.ts';
import type { CasebookDb } from './casebook.ts';
import type { Tables } from './tables.ts';

/**
 * One page of cases that match the filter, with the number of all that do, state by state. Of each group of `sought` one text
 * must be found, in the case or in the name that its printer or spool has today; they are lower case.
 */
export async function listCases(
  db: CasebookDb,
  filter: CaseFilter,
  sought: readonly (readonly string[])[],
): Promise<CaseList> {
  let query = db.selectFrom('cases');
  const named = sought.length > 0 ? await readNames(db) : null;
  for (const texts of sought) {
    const [first = ''] = texts;
    const number = /^#?(\d{1,9})$/.exec(first)?.[1];
    const printers = texts.flatMap((text) => idsNamed(named?.printers, text));
    const spools = texts.flatMap((text) => idsNamed(named?.spools, text));
    query = query.where((eb) =>
      eb.or([
        ...texts.map(isInWords),
        ...(number === undefined ? [] : [eb('cases.number', '=', Number(number))]),
        ...(printers.length > 0 ? [eb('cases.printer_id', 'in', printers)] : []),
        ...(spools.length > 0 ? [eb('cases.spool_id', 'in', spools)] : []),
      ]),
    );
  }
  if (filter.printerId) query = query.where('cases.printer_id', '=', filter.printerId);
  if (filter.openedFrom) query = query.where('cases.opened_at', '>=', filter.openedFrom);
  if (filter.openedTo) query = query.where('cases.opened_at', '<', filter.openedTo);
  const cause = filter.cause;
  if (cause) {
    query = query.where((eb) =>
      eb.exists(
        eb
          .selectFrom('case_causes')
          .select('case_causes.case_id')
          .whereRef('case_causes.case_id', '=', 'cases.id')
          .where('case_causes.cause', '=', cause),
      ),
    );
  }
  const byState = await countByState(query);
  const total = CASE_STATES.filter((state) => filter.states.length === 0 || filter.states.includes(state))
    .map((state) => byState[state] ?? 0)
    .reduce((sum, count) => sum + count, 0);
  if (filter.states.length > 0) query = query.where('cases.state', 'in', filter.states);
  let page = query
    .leftJoin('printers', 'printers.id', 'cases.printer_id')
    .leftJoin('spools', 'spools.id', 'cases.spool_id')
    .selectAll('cases')
    .select(['printers.label as printer_label', 'spools.label as spool_label']);
  if (filter.order === 'costliest') page = page.orderBy('cases.minutes_lost', 'desc');
  page = page.orderBy('cases.opened_at', filter.order === 'oldest' ? 'asc' : 'desc').orderBy('cases.id');
  const rows = await page.limit(filter.limit).offset(filter.offset).execute();
  return {
    total,
    byState,
    rows: rows.map((row) => ({
      caseId: row.id,
      number: row.number,
      state: stateOf(row.state),
      openedAt: row.opened_at,
      closedAt: row.closed_at,
      printerLabel: row.printer_label,
      spoolLabel: row.spool_label,
      openedBy: row.opened_by,
      complaint: row.complaint,
      causeLabel: row.cause_label,
      isConfirmed: row.is_confirmed === 1,
      minutesLost: row.minutes_lost,
      gramsScrapped: row.grams_scrapped,
      isDemo: row.is_demo === 1,
    })),
  };
}

function isInWords(text: string) {
  const escaped = text.replace(/[\\%_]/g, (character) => `\\${character}`);
  // SQLite has no escape character of its own; PostgreSQL's happens to be the same.
  return sql<boolean>`cases.search_text like ${`%${escaped}%`} escape '\\'`;
}

/** One pass for all tabs of the list. */
async function countByState(
  query: SelectQueryBuilder<Tables, 'cases', object>,
): Promise<CaseList['byState']> {
  const counted = await query
    .select(['cases.state as state', ({ fn }) => fn.countAll().as('count')])
    .groupBy('cases.state')
    .execute();
  const counts: CaseList['byState'] = {};
  for (const { state, count } of counted) {
    // A state of a version to come counts as the one that its rows are shown in.
    const known = stateOf(state);
    counts[known] = (counts[known] ?? 0) + Number(count);
  }
  return counts;
}

function stateOf(stored: string): CaseState {
  return CASE_STATES.find((state) => state === stored) ?? 'parked';
}

interface Named {
  readonly id: string;
  readonly label: string;
}

async function readNames(db: CasebookDb): Promise<{ printers: Named[]; spools: Named[] }> {
  return {
    printers: await db.selectFrom('printers').select(['id', 'label']).execute(),
    spools: await db.selectFrom('spools').select(['id', 'label']).execute(),
  };
}

function idsNamed(names: readonly Named[] | undefined, word: string): string[] {
  // A word may come with its accents or without.
  const says = (label: string) => label.toLowerCase().includes(word) || plain(label).includes(word);
  return (names ?? []).filter(({ label }) => says(label)).map(({ id }) => id);
}

/** Closed cases of a period with their confirmed causes in order, for rates and recurrences. */
export async function listClosedCauses(db: CasebookDb, from: string, to: string) {
  return db
    .selectFrom('cases')
    .innerJoin('case_causes', 'case_causes.case_id', 'cases.id')
    .select([
      'cases.id as caseId',
      'cases.printer_id as printerId',
      'cases.spool_id as spoolId',
      'cases.opened_at as openedAt',
      'cases.practice as practice',
      'cases.minutes_lost as minutesLost',
      'cases.grams_scrapped as gramsScrapped',
      'case_causes.cause as cause',
      'case_causes.label as causeLabel',
    ])
    .where('cases.state', '=', 'closed')
    .where('cases.opened_at', '>=', from)
    .where('cases.opened_at', '<', to)
    .orderBy('cases.opened_at')
    .orderBy('cases.id')
    .orderBy('case_causes.position')
    .execute();
}

/** Closed cases of a period whose log mentions a text: few, where one looks for what is seldom said. */
export async function listClosedMentioning(
  db: CasebookDb,
  text: string,
  from: string,
  to: string,
): Promise<readonly string[]> {
  const rows = await db
    .selectFrom('cases')
    .innerJoin('case_events', 'case_events.case_id', 'cases.id')
    .select('cases.id')
    .distinct()
    .where('cases.state', '=', 'closed')
    .where('cases.opened_at', '>=', from)
    .where('cases.opened_at', '<', to)
    .where('case_events.event_json', 'like', `%"${text}"%`)
    .execute();
  return rows.map(({ id }) => id);
}

/** Cases offered for practice at most, the newest. */
const MOST_PRACTISABLE = 30;

/** Closed cases whose cause is one of these, the newest first. */
export async function listPractisable(
  db: CasebookDb,
  causes: readonly string[],
): Promise<{ caseId: string; number: number; complaint: string }[]> {
  const rows = await db
    .selectFrom('cases')
    .select(['id', 'number', 'complaint'])
    .where('state', '=', 'closed')
    // Engines do not agree where nothing comes in an order.
    .where('closed_at', 'is not', null)
    .where((eb) =>
      eb.exists(
        eb
          .selectFrom('case_causes')
          .select('case_causes.case_id')
          .whereRef('case_causes.case_id', '=', 'cases.id')
          .where('is_named_by_hand', '=', 0)
          .where('case_causes.cause', 'in', [...causes]),
      ),
    )
    .orderBy('closed_at', 'desc')
    .limit(MOST_PRACTISABLE)
    .execute();
  return rows.map(({ id, number, complaint }) => ({ caseId: id, number, complaint }));
}
