import { sql, type Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** What a spool is wound with, where it has been, and the shop's settings. Frozen like every migration. */
export const spoolLife: Migration = {
  async up(db: Kysely<unknown>) {
    const number = 'double precision';
    await db.schema
      .alterTable('spools')
      .addColumn('diameter_mm', number, (c) => c.notNull().defaultTo(sql`1.75`))
      .execute();
    await db.schema
      .alterTable('spools')
      .addColumn('filament_grams', number, (c) => c.notNull().defaultTo(sql`1000`))
      .execute();
    await db.schema
      .alterTable('spools')
      .addColumn('body', 'text', (c) => c.notNull().defaultTo('plastic'))
      .execute();
    await db.schema
      .createTable('spool_events')
      .addColumn('spool_id', 'text', (c) => c.notNull().references('spools.id'))
      .addColumn('seq', 'integer', (c) => c.notNull())
      .addColumn('at', 'text', (c) => c.notNull())
      .addColumn('event_json', 'text', (c) => c.notNull())
      .addPrimaryKeyConstraint('spool_events_pk', ['spool_id', 'seq'])
      .execute();
    await db.schema
      .createTable('shop_settings')
      .addColumn('name', 'text', (c) => c.primaryKey())
      .addColumn('value_json', 'text', (c) => c.notNull())
      .execute();
  },
};
