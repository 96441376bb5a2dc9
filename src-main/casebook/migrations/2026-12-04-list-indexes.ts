import { sql, type Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * Indexes so that the list can be sorted by any column, and its tabs counted, without looking at every case: each holds the
 * number, by which a page is fetched, and those that filters use hold the state, too. Frozen.
 */
export const listIndexes: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema.dropIndex('cases_by_opened').execute();
    await db.schema.dropIndex('cases_by_printer').execute();
    await db.schema.dropIndex('cases_by_spool').execute();
    const columns = {
      cases_by_opened: ['opened_at', 'number', 'state'],
      cases_by_printer: ['printer_id', 'opened_at', 'number', 'state'],
      cases_by_spool: ['spool_id', 'opened_at', 'number', 'state'],
      cases_by_opener: ['opened_by', 'number desc', 'state'],
      cases_by_practice: ['practice', 'number desc', 'state'],
      cases_by_closed: ['closed_at', 'number'],
      cases_by_complaint: ['complaint', 'number desc'],
      cases_by_cause_label: ['cause_label', 'number desc'],
      cases_by_minutes: ['minutes_lost', 'number', 'state'],
      cases_by_grams: ['grams_scrapped', 'number', 'state'],
      cases_by_state_number: ['state', 'number desc'],
    } as const;
    for (const [name, of] of Object.entries(columns)) {
      let index = db.schema.createIndex(name).on('cases');
      for (const column of of) index = index.column(column as never);
      await index.execute();
    }
    // Open cases are few: counting them must not pass over the closed ones.
    await sql`create index cases_open_by_state on cases (state) where state <> 'closed'`.execute(db);
  },
};
