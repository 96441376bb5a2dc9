import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** How often a person or a setting was written, as of printers and spools. Frozen. */
export const settingRevisions: Migration = {
  async up(db: Kysely<unknown>) {
    for (const table of ['people', 'shop_settings'])
      await db.schema
        .alterTable(table)
        .addColumn('revision', 'integer', (c) => c.notNull().defaultTo(1))
        .execute();
  },
};
