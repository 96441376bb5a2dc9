import { sql, type Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Which case was merged into which, and which came from which. Frozen. */
export const caseLinks: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema.alterTable('cases').addColumn('merged_into', 'text').execute();
    await db.schema.alterTable('cases').addColumn('came_from', 'text').execute();
    await sql`create index cases_by_source on cases (came_from) where came_from is not null`.execute(db);
  },
};
