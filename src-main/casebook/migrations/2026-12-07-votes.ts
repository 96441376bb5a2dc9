import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** The vote of a group session that is under way, and what devices voted; gone once the session ends. Frozen. */
export const votes: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('ballots')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('asked_at', 'text', (c) => c.notNull())
      .addColumn('ballot_json', 'text', (c) => c.notNull())
      .addColumn('result_json', 'text')
      .execute();
    await db.schema
      .createTable('ballot_votes')
      .addColumn('ballot_id', 'text', (c) => c.notNull().references('ballots.id'))
      .addColumn('voter', 'text', (c) => c.notNull())
      .addColumn('label', 'text', (c) => c.notNull())
      .addColumn('person_id', 'text')
      .addColumn('initials', 'text')
      .addColumn('choice', 'text', (c) => c.notNull())
      .addPrimaryKeyConstraint('ballot_votes_pk', ['ballot_id', 'voter'])
      .execute();
  },
};
