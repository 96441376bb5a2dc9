import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** How often a printer or a spool was written, so that a change made from an older state is noticed. Frozen. */
export const recordRevisions: Migration = {
  async up(db: Kysely<unknown>) {
    for (const table of ['printers', 'spools'])
      await db.schema
        .alterTable(table)
        .addColumn('revision', 'integer', (c) => c.notNull().defaultTo(1))
        .execute();
  },
};
