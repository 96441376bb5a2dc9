import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Codes that wait for a device, and wrong tries of codes and PINs: for all stations that share the casebook. Frozen. */
export const door: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('join_codes')
      .addColumn('code_hash', 'text', (c) => c.primaryKey())
      .addColumn('label', 'text', (c) => c.notNull())
      .addColumn('role', 'text', (c) => c.notNull())
      .addColumn('printer_id', 'text')
      .addColumn('expires_at', 'text', (c) => c.notNull())
      .execute();
    await db.schema
      .createTable('door_tries')
      .addColumn('door', 'text', (c) => c.primaryKey())
      .addColumn('in_vain', 'integer', (c) => c.notNull())
      .addColumn('at', 'text', (c) => c.notNull())
      .addColumn('open_again_at', 'text', (c) => c.notNull())
      .execute();
  },
};
