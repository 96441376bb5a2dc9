import { sql, type Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** What a meter reading is, and indexes so that counting open cases costs what the open ones cost. Frozen. */
export const metersAndIndexes: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .alterTable('hour_readings')
      .addColumn('kind', 'text', (c) => c.notNull().defaultTo('read'))
      .execute();
    // Partial: a casebook is mostly closed cases, which none of these looks at.
    await sql`create index cases_open_by_printer on cases (printer_id) where state <> 'closed'`.execute(db);
    await db.schema.createIndex('cases_by_state').on('cases').columns(['state', 'opened_at']).execute();
    await db.schema.createIndex('cases_by_spool').on('cases').columns(['spool_id']).execute();
    await db.schema.createIndex('causes_by_cause').on('case_causes').columns(['cause', 'case_id']).execute();
  },
};
