import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** The shop's own model of each printer, and what was done to keep it well. Frozen. */
export const maintenance: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .alterTable('printers')
      .addColumn('model', 'text', (c) => c.notNull().defaultTo(''))
      .execute();
    await db.schema
      .createTable('maintenance_events')
      .addColumn('printer_id', 'text', (c) => c.notNull().references('printers.id'))
      .addColumn('seq', 'integer', (c) => c.notNull())
      .addColumn('at', 'text', (c) => c.notNull())
      .addColumn('event_json', 'text', (c) => c.notNull())
      .addPrimaryKeyConstraint('maintenance_events_pk', ['printer_id', 'seq'])
      .execute();
  },
};
