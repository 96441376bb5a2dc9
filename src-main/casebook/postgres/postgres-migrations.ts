import { casebookTrouble } from '../../../src-core/words/en/casebook-trouble.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { sql, type Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import { migrations, unknownAmong } from '../migrate.ts';
import { postgresCaseSearch } from './2026-12-07-case-search.ts';
import type { CasebookDb } from '../casebook.ts';

/** A type, as Kysely wants it for further tables. */
export type PhotoTables = { photos: { hash: string; bytes: Buffer } };

/** Photos lie in the database, where a file has them beside it. Frozen. */
const photos: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('photos')
      .addColumn('hash', 'text', (c) => c.primaryKey())
      .addColumn('bytes', 'bytea', (c) => c.notNull())
      .execute();
    // They are compressed already.
    await sql`alter table photos alter column bytes set storage external`.execute(db);
  },
};

/** Those of every casebook, and what only a database has. */
export const postgresMigrations: Readonly<Record<string, Migration>> = {
  ...migrations,
  '2026-12-03-photos': photos,
  '2026-12-07-case-search': postgresCaseSearch,
};

/** Why this version cannot work with what is in the database, as its list of migrations says; null where it can. */
export async function troubleOfForm(db: CasebookDb, place: string): Promise<Message | null> {
  if (!(await tablesThere(db)).has('kysely_migration')) return null;
  const { rows } = await sql<{ name: string }>`select name from kysely_migration order by name`.execute(db);
  const names = rows.map(({ name }) => name);
  const unknown = unknownAmong(names, postgresMigrations);
  switch (unknown.kind) {
    case 'none':
      return null;
    case 'newer':
      return casebookTrouble.newerIn({ place, names: unknown.names });
    default:
      return casebookTrouble.cannotBeReadIn({ place, why: casebookTrouble.listDamaged() });
  }
}

/** Tables of the schema that the casebook lives in. */
export async function tablesThere(db: CasebookDb): Promise<ReadonlySet<string>> {
  const { rows } = await sql<{
    name: string;
  }>`select tablename::text as name from pg_tables where schemaname = current_schema()`.execute(db);
  return new Set(rows.map(({ name }) => name));
}

/**
 * Texts are compared and put in order by their bytes, as in a file: a database's own collation would order times and ids by
 * the rules of a language, and differently on each machine.
 */
export async function compareTextByBytes(db: CasebookDb): Promise<void> {
  if ((await columnsInOtherOrder(db)).length === 0) return;
  // Alone: another station may be starting as well.
  await db.transaction().execute(async (trx) => {
    for (const [table, own] of Map.groupBy(await columnsInOtherOrder(trx), (row) => row.table)) {
      const columns = own.map(({ column }) => sql`alter column ${sql.ref(column)} type text collate "C"`);
      await sql`alter table ${sql.table(table)} ${sql.join(columns)}`.execute(trx);
    }
  });
}

async function columnsInOtherOrder(db: CasebookDb): Promise<{ table: string; column: string }[]> {
  const { rows } = await sql<{ table: string; column: string }>`
    select c.relname::text as "table", a.attname::text as "column"
    from pg_attribute a
    join pg_class c on c.oid = a.attrelid
    join pg_collation o on o.oid = a.attcollation
    where c.relnamespace = current_schema()::regnamespace and c.relkind = 'r'
      and a.attnum > 0 and not a.attisdropped and a.atttypid = 'text'::regtype and o.collname <> 'C'
      and c.relname not like 'kysely\\_%'
    order by 1, a.attnum`.execute(db);
  return rows;
}
