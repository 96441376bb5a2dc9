import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Where a spool comes from, and what it weighs empty. Frozen. */
export const spoolOrigin: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .alterTable('spools')
      .addColumn('supplier', 'text', (c) => c.notNull().defaultTo(''))
      .execute();
    await db.schema
      .alterTable('spools')
      .addColumn('batch', 'text', (c) => c.notNull().defaultTo(''))
      .execute();
    await db.schema.alterTable('spools').addColumn('tare_grams', 'double precision').execute();
  },
};
