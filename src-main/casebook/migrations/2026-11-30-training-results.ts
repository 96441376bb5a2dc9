import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** What trainees did, each row one result of one person. Frozen. */
export const trainingResults: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('training_results')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
      .addColumn('at', 'text', (c) => c.notNull())
      .addColumn('result_json', 'text', (c) => c.notNull())
      .execute();
    await db.schema
      .createIndex('training_results_by_person')
      .on('training_results')
      .columns(['person_id', 'at'])
      .execute();
  },
};
