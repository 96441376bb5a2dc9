import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Devices that have joined, PINs of people, and the list of who did what about them. Frozen. */
export const devices: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('devices')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('label', 'text', (c) => c.notNull())
      .addColumn('role', 'text', (c) => c.notNull())
      .addColumn('printer_id', 'text')
      .addColumn('secret_hash', 'text', (c) => c.notNull())
      .addColumn('previous_hash', 'text')
      .addColumn('rotated_at', 'text', (c) => c.notNull())
      .addColumn('joined_at', 'text', (c) => c.notNull())
      .addColumn('seen_at', 'text')
      .addColumn('revoked_at', 'text')
      .addColumn('person_id', 'text')
      .addColumn('person_active_at', 'text')
      .execute();
    await db.schema
      .createTable('person_pins')
      .addColumn('person_id', 'text', (c) => c.primaryKey())
      .addColumn('pin_hash', 'text', (c) => c.notNull())
      .execute();
    await db.schema
      .createTable('audit_entries')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('at', 'text', (c) => c.notNull())
      .addColumn('who', 'text', (c) => c.notNull())
      .addColumn('what', 'text', (c) => c.notNull())
      .execute();
  },
};
