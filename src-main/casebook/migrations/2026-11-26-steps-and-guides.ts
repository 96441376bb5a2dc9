import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * What a case adds up to, kept beside its log so that nobody has to work it out again, and the guides that entries were
 * made under. Frozen.
 */
export const stepsAndGuides: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('case_steps')
      .addColumn('case_id', 'text', (c) => c.primaryKey().references('cases.id'))
      .addColumn('revision', 'integer', (c) => c.notNull())
      .addColumn('knowledge_version', 'text', (c) => c.notNull())
      .addColumn('engine_version', 'text', (c) => c.notNull())
      .addColumn('costs_json', 'text', (c) => c.notNull())
      .addColumn('step_deflated', 'text', (c) => c.notNull())
      .execute();
    await db.schema
      .createTable('case_rankings')
      .addColumn('case_id', 'text', (c) => c.notNull().references('cases.id'))
      .addColumn('seq', 'integer', (c) => c.notNull())
      .addColumn('knowledge_version', 'text', (c) => c.notNull())
      .addColumn('engine_version', 'text', (c) => c.notNull())
      .addColumn('ranking_json', 'text', (c) => c.notNull())
      .addPrimaryKeyConstraint('case_rankings_key', ['case_id', 'seq'])
      .execute();
    await db.schema
      .createTable('guides')
      .addColumn('version', 'text', (c) => c.primaryKey())
      .addColumn('first_used_at', 'text', (c) => c.notNull())
      .addColumn('files_deflated', 'text', (c) => c.notNull())
      .execute();
  },
};
