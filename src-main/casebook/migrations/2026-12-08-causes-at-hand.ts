import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** What comes back asks the causes of every closed case of a year: read from an index alone. Frozen. */
export const causesAtHand: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createIndex('causes_of_case')
      .on('case_causes')
      .columns(['case_id', 'position', 'cause'])
      .execute();
  },
};
