import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** The first schema. Frozen: later changes are migrations of their own. */
export const first: Migration = {
  // Migrations are typed without the app's tables on purpose: they must not change when the tables do.
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('printers')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('label', 'text', (c) => c.notNull())
      .addColumn('conditions_json', 'text', (c) => c.notNull())
      .addColumn('note', 'text', (c) => c.notNull())
      .addColumn('is_retired', 'integer', (c) => c.notNull())
      .addColumn('is_demo', 'integer', (c) => c.notNull())
      .execute();
    await db.schema
      .createTable('spools')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('label', 'text', (c) => c.notNull())
      .addColumn('polymer', 'text', (c) => c.notNull())
      .addColumn('filler', 'text', (c) => c.notNull())
      .addColumn('filler_percent', 'double precision')
      .addColumn('storage', 'text')
      .addColumn('opened_at', 'text')
      .addColumn('note', 'text', (c) => c.notNull())
      .addColumn('is_retired', 'integer', (c) => c.notNull())
      .addColumn('is_demo', 'integer', (c) => c.notNull())
      .execute();
    await db.schema
      .createTable('people')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('initials', 'text', (c) => c.notNull())
      .addColumn('role', 'text', (c) => c.notNull())
      .addColumn('is_retired', 'integer', (c) => c.notNull())
      .addColumn('is_demo', 'integer', (c) => c.notNull())
      .execute();
    await db.schema
      .createTable('hour_readings')
      .addColumn('printer_id', 'text', (c) => c.notNull().references('printers.id'))
      .addColumn('at', 'text', (c) => c.notNull())
      .addColumn('total_hours', 'double precision', (c) => c.notNull())
      .addPrimaryKeyConstraint('hour_readings_pk', ['printer_id', 'at'])
      .execute();
    await db.schema
      .createTable('cases')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('number', 'integer', (c) => c.notNull().unique())
      .addColumn('state', 'text', (c) => c.notNull())
      .addColumn('revision', 'integer', (c) => c.notNull())
      .addColumn('opened_at', 'text', (c) => c.notNull())
      .addColumn('closed_at', 'text')
      .addColumn('printer_id', 'text', (c) => c.references('printers.id'))
      .addColumn('spool_id', 'text', (c) => c.references('spools.id'))
      .addColumn('opened_by', 'text')
      .addColumn('complaint', 'text', (c) => c.notNull())
      .addColumn('cause_label', 'text', (c) => c.notNull())
      .addColumn('is_confirmed', 'integer', (c) => c.notNull())
      .addColumn('practice', 'text')
      .addColumn('minutes_lost', 'double precision', (c) => c.notNull())
      .addColumn('grams_scrapped', 'double precision', (c) => c.notNull())
      .addColumn('search_text', 'text', (c) => c.notNull())
      .addColumn('knowledge_version', 'text', (c) => c.notNull())
      .addColumn('engine_version', 'text', (c) => c.notNull())
      .addColumn('is_demo', 'integer', (c) => c.notNull())
      .execute();
    await db.schema.createIndex('cases_by_opened').on('cases').columns(['opened_at']).execute();
    await db.schema
      .createIndex('cases_by_printer')
      .on('cases')
      .columns(['printer_id', 'opened_at'])
      .execute();
    await db.schema
      .createTable('case_events')
      .addColumn('case_id', 'text', (c) => c.notNull().references('cases.id'))
      .addColumn('seq', 'integer', (c) => c.notNull())
      .addColumn('at', 'text', (c) => c.notNull())
      .addColumn('event_json', 'text', (c) => c.notNull())
      .addColumn('knowledge_version', 'text', (c) => c.notNull())
      .addColumn('engine_version', 'text', (c) => c.notNull())
      .addPrimaryKeyConstraint('case_events_pk', ['case_id', 'seq'])
      .execute();
    await db.schema
      .createTable('case_causes')
      .addColumn('case_id', 'text', (c) => c.notNull().references('cases.id'))
      .addColumn('position', 'integer', (c) => c.notNull())
      .addColumn('cause', 'text', (c) => c.notNull())
      .addColumn('label', 'text', (c) => c.notNull())
      .addColumn('is_named_by_hand', 'integer', (c) => c.notNull())
      .addPrimaryKeyConstraint('case_causes_pk', ['case_id', 'position'])
      .execute();
  },
};
