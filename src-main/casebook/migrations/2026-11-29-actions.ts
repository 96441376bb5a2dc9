import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** What the shop does about what comes back, as logs. Frozen. */
export const actions: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('actions')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('is_demo', 'integer', (c) => c.notNull())
      .execute();
    await db.schema
      .createTable('action_events')
      .addColumn('action_id', 'text', (c) => c.notNull().references('actions.id'))
      .addColumn('seq', 'integer', (c) => c.notNull())
      .addColumn('at', 'text', (c) => c.notNull())
      .addColumn('event_json', 'text', (c) => c.notNull())
      .addPrimaryKeyConstraint('action_events_pk', ['action_id', 'seq'])
      .execute();
  },
};
