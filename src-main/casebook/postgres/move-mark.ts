import { sql } from 'kysely';
import type { CasebookDb } from '../casebook.ts';
import { tablesThere } from './postgres-migrations.ts';

/** There while a casebook is being moved into the database: until all of it is there and was compared, nobody opens it. */
const TABLE = 'casebook_being_moved';

export async function isMoveUnfinished(db: CasebookDb): Promise<boolean> {
  return (await tablesThere(db)).has(TABLE);
}

export async function beginMove(db: CasebookDb): Promise<void> {
  await sql`create table if not exists ${sql.table(TABLE)} (began_at text not null)`.execute(db);
}

export async function endMove(db: CasebookDb): Promise<void> {
  await sql`drop table ${sql.table(TABLE)}`.execute(db);
}
