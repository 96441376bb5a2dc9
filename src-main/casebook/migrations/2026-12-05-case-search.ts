import { sql, SqliteAdapter, type Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Cases that are taken into the index at once: between two lots others get a turn. */
const CASES_AT_ONCE = 5000;

/** Where a case stands in time: the moment it was opened (ms), and among those of one moment its number. Never changes. */
const positionOf = (row: string) =>
  `cast((cast(round(coalesce(unixepoch(${row}opened_at, 'subsec'), 0) * 1000) as integer) << 20) + (${row}number & 1048575) as integer)`;

const INDEXED = ['state', 'search_text', 'printer_id', 'spool_id', 'opened_by', 'practice'] as const;
const TAKE_OUT = (row: 'old' | 'new') => `delete from case_search where rowid = ${positionOf(`${row}.`)};`;
const TAKE_OUT_CASE = (id: string) =>
  `delete from case_search where rowid = (select position from case_search_source where id = ${id});`;
const PUT_IN = (id: string) =>
  `insert into case_search (rowid, words, marks)
     select position, words, marks from case_search_source where id = ${id};`;

/**
 * The casebook's text index (SQLite's FTS5), kept up by triggers, so that no way of writing a case can pass it by: words of
 * each case and of its spool, and marks by which a search is narrowed without looking at the cases themselves. Its rows are numbered by the
 * time a case was opened, so that the newest are found first without sorting. Another engine has an index of its own. Frozen.
 */
export const caseSearch = (onProgress: (share: number) => void = () => undefined): Migration => ({
  async up(db: Kysely<unknown>) {
    if (!(db.getExecutor().adapter instanceof SqliteAdapter)) return;
    const run = (statement: string) => sql.raw(statement).execute(db);
    await run(`create unique index cases_by_position on cases (${positionOf('')})`);
    await run(`create view case_search_source as select
      id,
      ${positionOf('')} as position,
      search_text || coalesce((select ' ' || label from spools where spools.id = spool_id), '') as words,
      'n' || number || ' s' || replace(state, '-', '')
        || case when state = 'closed' then '' else ' open' end
        || coalesce(' p' || printer_id, '')
        || coalesce(' f' || spool_id, '')
        || coalesce(' o' || hex(opened_by), '')
        || coalesce(' r' || replace(practice, '-', ''), '')
        || coalesce((select group_concat(' c' || replace(cause, '-', ''), '') from case_causes
             where case_causes.case_id = cases.id), '') as marks
      from cases`);
    await run(`create virtual table case_search using fts5(
      words, marks, content = '', contentless_delete = 1,
      tokenize = "unicode61 remove_diacritics 2", prefix = '1 2 3')`);
    await fill(db, onProgress);
    const triggers = {
      case_search_opened: `after insert on cases begin ${PUT_IN('new.id')} end`,
      case_search_changed: `after update on cases when ${[...INDEXED, 'opened_at', 'number']
        .map((column) => `old.${column} is not new.${column}`)
        .join(' or ')} begin ${TAKE_OUT('old')} ${PUT_IN('new.id')} end`,
      case_search_gone: `after delete on cases begin ${TAKE_OUT('old')} end`,
      case_search_cause_named: `after insert on case_causes begin
        ${TAKE_OUT_CASE('new.case_id')} ${PUT_IN('new.case_id')} end`,
      case_search_cause_taken: `after delete on case_causes begin
        ${TAKE_OUT_CASE('old.case_id')} ${PUT_IN('old.case_id')} end`,
      // A spool is of some hundred cases; a printer may be of tens of thousands and is found by its mark.
      case_search_spool_renamed: `after update of label on spools when old.label <> new.label begin
        delete from case_search where rowid in (select position from case_search_source where id in
          (select id from cases where spool_id = new.id));
        insert into case_search (rowid, words, marks) select position, words, marks from case_search_source
          where id in (select id from cases where spool_id = new.id); end`,
    };
    for (const [name, body] of Object.entries(triggers)) await run(`create trigger ${name} ${body}`);
  },
});

async function fill(db: Kysely<unknown>, onProgress: (share: number) => void): Promise<void> {
  const counted = await sql<{ n: number }>`select count(*) as n from cases`.execute(db);
  const all = counted.rows[0]?.n ?? 0;
  // Positions are larger than a number of JavaScript's holds exactly: they travel as text.
  let [after, done] = ['-1', 0];
  while (done < all) {
    const before = sql`position > cast(${after} as integer)`;
    // In their order, as the index takes them best.
    const lot = await sql<{ last: string; n: number }>`
      select cast(max(position) as text) as last, count(*) as n from (
        select position from case_search_source where ${before} order by position limit ${sql.lit(CASES_AT_ONCE)})`.execute(
      db,
    );
    const { last, n } = lot.rows[0] ?? { last: after, n: 0 };
    if (n === 0) break;
    await sql`
      insert into case_search (rowid, words, marks) select position, words, marks from case_search_source
      where ${before} and position <= cast(${last} as integer) order by position`.execute(db);
    [after, done] = [last, done + n];
    onProgress(done / all);
    await new Promise((resolve) => setImmediate(resolve));
  }
}
