import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Who was signed in when an entry of a case was made, by initials; of entries of before nobody knows. Frozen. */
export const whoDidIt: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema.alterTable('case_events').addColumn('by_initials', 'text').execute();
  },
};
