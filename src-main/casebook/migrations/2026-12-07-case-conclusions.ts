import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * What a case had concluded with its newest entry, kept once another guide or engine makes its step anew: so that both can be
 * held beside each other. Frozen.
 */
export const caseConclusions: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('case_conclusions')
      .addColumn('case_id', 'text', (c) => c.primaryKey().references('cases.id'))
      .addColumn('revision', 'integer', (c) => c.notNull())
      .addColumn('knowledge_version', 'text', (c) => c.notNull())
      .addColumn('engine_version', 'text', (c) => c.notNull())
      .addColumn('conclusion_json', 'text', (c) => c.notNull())
      .execute();
  },
};
