import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Which cases came in with which spreadsheet, so that a whole one can be taken back, and cases that were thrown away. Frozen. */
export const importsAndBin: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('imports')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('at', 'text', (c) => c.notNull())
      .addColumn('file_name', 'text', (c) => c.notNull())
      .execute();
    await db.schema
      .createTable('import_cases')
      .addColumn('case_id', 'text', (c) => c.primaryKey())
      .addColumn('import_id', 'text', (c) => c.notNull().references('imports.id'))
      .addColumn('revision', 'integer', (c) => c.notNull())
      .execute();
    await db.schema.createIndex('import_cases_by_import').on('import_cases').columns(['import_id']).execute();
    await db.schema
      .createTable('binned_cases')
      .addColumn('case_id', 'text', (c) => c.primaryKey())
      .addColumn('number', 'integer', (c) => c.notNull())
      .addColumn('binned_at', 'text', (c) => c.notNull())
      .addColumn('label', 'text', (c) => c.notNull())
      .addColumn('rows_json', 'text', (c) => c.notNull())
      .execute();
  },
};
