import { z } from 'zod';
import { LISTED_STATES, type ListedState } from '../../src-core/contract/case-view.ts';
import type { CaseFilter, CaseList, CaseRow } from '../../src-core/contract/casebook-view.ts';
import { byTag } from '../../src-core/session/tags.ts';
import { plain } from '../../src-core/words/word-book.ts';
import type { CasebookDb } from './casebook.ts';
import { findByFilter } from './search/find-by-filter.ts';
import type { SoughtWords } from './search/case-search.ts';
import { caseSearchOf } from './search/search-of-engine.ts';

/** What a row shows: not the words that the search looks through, which are the most of it. */
const ROW_COLUMNS = [
  'cases.id',
  'cases.number',
  'cases.state',
  'cases.revision',
  'cases.opened_at',
  'cases.closed_at',
  'cases.opened_by',
  'cases.profile',
  'cases.tags_json',
  'cases.complaint',
  'cases.cause_label',
  'cases.is_confirmed',
  'cases.minutes_lost',
  'cases.grams_scrapped',
  'cases.is_demo',
] as const;

/**
 * One page of cases that match the filter, with the number of all that do, state by state. Of each group of `sought` one text
 * must be found, in the case or in the name that its printer or spool has today; they are lower case.
 */
export async function listCases(
  db: CasebookDb,
  filter: CaseFilter,
  sought: readonly (readonly string[])[],
): Promise<CaseList> {
  // Cases of a cause or a tag are found by the index, too: one row has several of them.
  const isSearch = sought.length > 0 || filter.cause !== null || filter.tag !== null;
  const found =
    (isSearch ? await caseSearchOf(db).find(db, filter, await withNames(db, sought)) : null) ??
    (await findByFilter(db, filter));
  const byState: CaseList['byState'] = {};
  for (const [state, count] of found.byState) {
    // A state of a version to come counts as the one that its rows are shown in.
    const known = stateOf(state);
    byState[known] = (byState[known] ?? 0) + count;
  }
  const total = LISTED_STATES.filter(
    (state) => filter.states.length === 0 || (filter.states as readonly ListedState[]).includes(state),
  )
    .map((state) => byState[state] ?? 0)
    .reduce((sum, count) => sum + count, 0);
  return { total, isMore: found.isMore, byState, rows: await readRows(db, found.numbers) };
}

/** Rows of the list for these cases, in this order. */
async function readRows(db: CasebookDb, numbers: readonly number[]): Promise<CaseRow[]> {
  if (numbers.length === 0) return [];
  const rows = await db
    .selectFrom('cases')
    .leftJoin('printers', 'printers.id', 'cases.printer_id')
    .leftJoin('spools', 'spools.id', 'cases.spool_id')
    .leftJoin('cases as into', 'into.id', 'cases.merged_into')
    .select(ROW_COLUMNS)
    .select([
      'printers.label as printer_label',
      'spools.label as spool_label',
      'into.number as merged_into_number',
    ])
    .where('cases.number', 'in', [...numbers])
    .execute();
  const byNumber = new Map(rows.map((row) => [row.number, row]));
  return numbers.flatMap((number) => {
    const row = byNumber.get(number);
    if (!row) return [];
    return [
      {
        caseId: row.id,
        number,
        state: stateOf(row.state),
        mergedInto: row.merged_into_number,
        revision: row.revision,
        openedAt: row.opened_at,
        closedAt: row.closed_at,
        printerLabel: row.printer_label,
        spoolLabel: row.spool_label,
        profile: row.profile || null,
        tags: tagsIn(row.tags_json),
        openedBy: row.opened_by,
        complaint: row.complaint,
        causeLabel: row.cause_label,
        isConfirmed: row.is_confirmed === 1,
        minutesLost: row.minutes_lost,
        gramsScrapped: row.grams_scrapped,
        isDemo: row.is_demo === 1,
      },
    ];
  });
}

function stateOf(stored: string): ListedState {
  return LISTED_STATES.find((state) => state === stored) ?? 'parked';
}

interface Named {
  readonly id: string;
  readonly label: string;
}

/** What is sought, with the printers that are called so today. */
async function withNames(
  db: CasebookDb,
  sought: readonly (readonly string[])[],
): Promise<readonly SoughtWords[]> {
  const printers = await db.selectFrom('printers').select(['id', 'label']).execute();
  return sought.map((texts) => {
    const [first = ''] = texts;
    const number = /^#?(\d{1,9})$/.exec(first)?.[1];
    return {
      texts: first.startsWith('#') && number !== undefined ? [] : texts,
      printerIds: texts.flatMap((text) => idsNamed(printers, text)),
      number: number === undefined ? null : Number(number),
    };
  });
}

function idsNamed(names: readonly Named[], word: string): string[] {
  // A word may come with its accents or without.
  const says = (label: string) => label.toLowerCase().includes(word) || plain(label).includes(word);
  return names.filter(({ label }) => says(label)).map(({ id }) => id);
}

/** Cases that came from this one, oldest first. */
export async function listLedTo(
  db: CasebookDb,
  caseId: string,
): Promise<{ caseId: string; number: number }[]> {
  const rows = await db
    .selectFrom('cases')
    .select(['id', 'number'])
    .where('came_from', '=', caseId)
    .orderBy('number')
    .execute();
  return rows.map(({ id, number }) => ({ caseId: id, number }));
}

/** What these causes were called when cases were closed with them: by any name that one of them bears. */
export async function listCauseLabels(
  db: CasebookDb,
  causes: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  if (causes.length === 0) return new Map();
  const rows = await db
    .selectFrom('case_causes')
    .select(['cause', ({ fn }) => fn.max('label').as('label')])
    .where('cause', 'in', [...causes])
    .groupBy('cause')
    .execute();
  return new Map(rows.map(({ cause, label }) => [cause, label ?? cause]));
}

/** Names of print profiles that cases were made with, the one met last first. */
export async function listProfiles(db: CasebookDb, most: number): Promise<string[]> {
  const rows = await db
    .selectFrom('cases')
    .select(['profile', ({ fn }) => fn.max('opened_at').as('met')])
    .where('profile', '<>', '')
    .groupBy('profile')
    .orderBy('met', 'desc')
    .orderBy('profile')
    .limit(most)
    .execute();
  return rows.map(({ profile }) => profile);
}

/** Tags that cases bear, from A to Z, and how many cases each. */
export async function listTags(db: CasebookDb): Promise<{ tag: string; cases: number }[]> {
  const rows = await db
    .selectFrom('cases')
    .select(['tags_json', ({ fn }) => fn.countAll().as('cases')])
    // All lists that hold something come before the empty one.
    .where('tags_json', '<', '[]')
    .groupBy('tags_json')
    .execute();
  const counts = new Map<string, number>();
  for (const { tags_json, cases } of rows)
    for (const tag of tagsIn(tags_json)) counts.set(tag, (counts.get(tag) ?? 0) + Number(cases));
  return [...counts].map(([tag, cases]) => ({ tag, cases })).toSorted((a, b) => byTag(a.tag, b.tag));
}

function tagsIn(json: string): string[] {
  return z.array(z.string()).parse(JSON.parse(json));
}

/** What is read of closed cases beside what every count needs, where they are grouped by it: each costs a year's hundred thousand. */
export type ClosedCaseField = 'id' | 'spool_id' | 'profile';

/** Closed cases of a period with their confirmed causes in order, for rates and recurrences: a case begins with position 0. */
export async function listClosedCauses(
  db: CasebookDb,
  from: string,
  to: string,
  fields: readonly ClosedCaseField[] = [],
) {
  return db
    .selectFrom('cases')
    .innerJoin('case_causes', 'case_causes.case_id', 'cases.id')
    .select([
      'cases.printer_id as printerId',
      'cases.opened_at as openedAt',
      'cases.practice as practice',
      'cases.minutes_lost as minutesLost',
      'cases.grams_scrapped as gramsScrapped',
      'case_causes.cause as cause',
      'case_causes.position as position',
    ])
    .$if(fields.includes('id'), (query) => query.select('cases.id as caseId'))
    .$if(fields.includes('spool_id'), (query) => query.select('cases.spool_id as spoolId'))
    .$if(fields.includes('profile'), (query) => query.select('cases.profile as profile'))
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
): Promise<{ caseId: string; number: number; complaint: string; hasPhotos: boolean }[]> {
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
  const photographed = await db
    .selectFrom('case_events')
    .select('case_id')
    .distinct()
    .where('case_id', 'in', ['', ...rows.map(({ id }) => id)])
    .where('event_json', 'like', '%"kind":"photographed"%')
    .execute();
  const withPhotos = new Set(photographed.map((row) => row.case_id));
  return rows.map(({ id, number, complaint }) => ({
    caseId: id,
    number,
    complaint,
    hasPhotos: withPhotos.has(id),
  }));
}
