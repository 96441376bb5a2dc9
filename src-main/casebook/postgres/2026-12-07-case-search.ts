import { sql, type Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * The casebook's text index on PostgreSQL: a row a case with its words and marks as a tsvector under a GIN index, kept up by
 * triggers in the transaction that writes the case, as on a file. Accents are taken off by decomposing letters
 * (`normalize`) and punctuation by a plain rule, so that no extension is needed, and the words are those that a file's index
 * has. Marks begin with "~", which no word does. Frozen.
 */
export const postgresCaseSearch: Migration = {
  async up(db: Kysely<unknown>) {
    const run = (statement: string) => sql.raw(statement).execute(db);
    await run(`create function case_search_plain(said text) returns text language sql immutable parallel safe as $$
      select regexp_replace(
        lower(regexp_replace(normalize(said, NFKD), '[\\u0300-\\u036f]', '', 'g') collate "default"),
        '[\\x01-\\x2f\\x3a-\\x40\\x5b-\\x60\\x7b-\\xa9\\xab-\\xb1\\xb4\\xb6-\\xb8\\xbb\\xbf\\xd7\\xf7\\u2000-\\u206f]+', ' ', 'g')
    $$`);
    await run(`create function case_search_of(one cases) returns tsvector language sql stable as $$
      select to_tsvector('simple', case_search_plain(left(one.search_text, 200000) || ' ' ||
          coalesce((select label from spools where id = one.spool_id), '')))
        || array_to_tsvector(array_remove(array[
            '~n' || one.number, '~p' || one.printer_id, '~f' || one.spool_id, '~o' || one.opened_by, '~r' || one.practice
          ] || (select array_agg(distinct '~c' || cause) from case_causes where case_id = one.id), null))
    $$`);
    await run(`create table case_search (
      case_id text collate "C" primary key references cases (id) on delete cascade,
      number integer not null,
      opened_at text collate "C" not null,
      state text collate "C" not null,
      words tsvector not null)`);
    await run(`create function case_search_put(one cases) returns void language sql as $$
      insert into case_search (case_id, number, opened_at, state, words)
      values (one.id, one.number, one.opened_at, one.state, case_search_of(one))
      on conflict (case_id) do update set number = excluded.number, opened_at = excluded.opened_at,
        state = excluded.state, words = excluded.words
    $$`);
    await run(`insert into case_search (case_id, number, opened_at, state, words)
      select id, number, opened_at, state, case_search_of(cases) from cases`);
    await run('create index case_search_words on case_search using gin (words)');
    await run('create index case_search_by_time on case_search (opened_at, number)');
    await run("create index case_search_open on case_search (state) where state <> 'closed'");
    // Neither column lists nor conditions at the triggers: these would bind the columns' types.
    await trigger(run, 'case_search_written', 'after insert or update on cases', [
      "if tg_op = 'UPDATE' and (old.state, old.search_text, old.printer_id, old.spool_id, old.opened_by, old.practice, old.opened_at, old.number)",
      '  is not distinct from (new.state, new.search_text, new.printer_id, new.spool_id, new.opened_by, new.practice, new.opened_at, new.number)',
      'then return null; end if;',
      'perform case_search_put(new);',
    ]);
    await trigger(run, 'case_search_cause', 'after insert or delete on case_causes', [
      'perform case_search_put(cases) from cases where id = coalesce(new.case_id, old.case_id);',
    ]);
    await trigger(run, 'case_search_spool', 'after update on spools', [
      'if new.label <> old.label then perform case_search_put(cases) from cases where spool_id = new.id; end if;',
    ]);
    await run('analyze case_search');
  },
};

async function trigger(
  run: (statement: string) => Promise<unknown>,
  name: string,
  when: string,
  lines: readonly string[],
): Promise<void> {
  await run(`create function ${name}() returns trigger language plpgsql as $$ begin
    ${lines.join('\n')}
    return null;
  end $$`);
  await run(`create trigger ${name} ${when} for each row execute function ${name}()`);
}
