import { sql, SqliteAdapter, type Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * The lead's own words on a case: a column for lists, and a mark each in the index of the search. Cases of before have none, so nothing has
 * to be indexed anew. Frozen.
 */
export const tags: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .alterTable('cases')
      .addColumn('tags_json', 'text', (c) => c.notNull().defaultTo('[]'))
      .execute();
    await sql`create index cases_by_tags on cases (tags_json, number desc, state)`.execute(db);
    const run = async (statements: readonly string[]) => {
      for (const one of statements) await sql.raw(one).execute(db);
    };
    await run(db.getExecutor().adapter instanceof SqliteAdapter ? ON_SQLITE : ON_POSTGRES);
  },
};

const positionOf = (row: string) =>
  `cast((cast(round(coalesce(unixepoch(${row}opened_at, 'subsec'), 0) * 1000) as integer) << 20) + (${row}number & 1048575) as integer)`;
const INDEXED = [
  'state',
  'search_text',
  'printer_id',
  'spool_id',
  'opened_by',
  'practice',
  'profile',
  'tags_json',
  'opened_at',
  'number',
];

const ON_SQLITE = [
  'drop view case_search_source',
  `create view case_search_source as select
    id,
    ${positionOf('')} as position,
    search_text || coalesce((select ' ' || label from spools where spools.id = spool_id), '') as words,
    'n' || number || ' s' || replace(state, '-', '')
      || case when state = 'closed' then '' else ' open' end
      || coalesce(' p' || printer_id, '')
      || coalesce(' f' || spool_id, '')
      || coalesce(' o' || hex(opened_by), '')
      || coalesce(' r' || replace(practice, '-', ''), '')
      || case when profile = '' then '' else ' w' || hex(profile) end
      || case when tags_json = '[]' then '' else
           (select group_concat(' t' || hex(value), '') from json_each(tags_json)) end
      || coalesce((select group_concat(' c' || replace(cause, '-', ''), '') from case_causes
           where case_causes.case_id = cases.id), '') as marks
    from cases`,
  'drop trigger case_search_changed',
  `create trigger case_search_changed after update on cases when
    ${INDEXED.map((column) => `old.${column} is not new.${column}`).join(' or ')} begin
    delete from case_search where rowid = ${positionOf('old.')};
    insert into case_search (rowid, words, marks)
      select position, words, marks from case_search_source where id = new.id; end`,
];

const ON_POSTGRES = [
  `create or replace function case_search_of(one cases) returns tsvector language sql stable as $$
    select to_tsvector('simple', case_search_plain(left(one.search_text, 200000) || ' ' ||
        coalesce((select label from spools where id = one.spool_id), '')))
      || array_to_tsvector(array_remove(array[
          '~n' || one.number, '~p' || one.printer_id, '~f' || one.spool_id, '~o' || one.opened_by, '~r' || one.practice,
          '~w' || nullif(one.profile, '')
        ] || (select array_agg('~t' || tag) from jsonb_array_elements_text(one.tags_json::jsonb) as tag)
          || (select array_agg(distinct '~c' || cause) from case_causes where case_id = one.id), null))
  $$`,
  `create or replace function case_search_written() returns trigger language plpgsql as $$ begin
    if tg_op = 'UPDATE' and (${INDEXED.map((column) => `old.${column}`).join(', ')})
      is not distinct from (${INDEXED.map((column) => `new.${column}`).join(', ')})
    then return null; end if;
    perform case_search_put(new);
    return null;
  end $$`,
];
