import type { Selectable } from 'kysely';
import type { CasebookDb } from './casebook.ts';
import type { Tables } from './tables.ts';

/** Everything about who is let in, to be put back as it is. */
export interface AccessRecords {
  readonly devices: readonly Selectable<Tables['devices']>[];
  readonly pins: readonly Selectable<Tables['person_pins']>[];
  readonly audit: readonly Selectable<Tables['audit_entries']>[];
  readonly tries: readonly Selectable<Tables['door_tries']>[];
}

export async function readAccessRecords(db: CasebookDb): Promise<AccessRecords> {
  return {
    devices: await db.selectFrom('devices').selectAll().execute(),
    pins: await db.selectFrom('person_pins').selectAll().execute(),
    audit: await db.selectFrom('audit_entries').selectAll().execute(),
    tries: await db.selectFrom('door_tries').selectAll().execute(),
  };
}

/**
 * Puts who is let in as it was before a restore in the place of what the backup says: a device that was revoked since then
 * stays outside, a code that was used stays used, and whoever has guessed PINs still waits. Null, where the casebook before could not be read: no device is let in until it joins anew.
 */
export async function writeAccessRecords(db: CasebookDb, records: AccessRecords | null): Promise<void> {
  await db.transaction().execute(async (trx) => {
    await trx.deleteFrom('devices').execute();
    await trx.deleteFrom('join_codes').execute();
    if (!records) return;
    await trx.deleteFrom('person_pins').execute();
    await trx.deleteFrom('audit_entries').execute();
    await trx.deleteFrom('door_tries').execute();
    for (const row of records.devices) await trx.insertInto('devices').values(row).execute();
    for (const row of records.pins) await trx.insertInto('person_pins').values(row).execute();
    for (const row of records.audit) await trx.insertInto('audit_entries').values(row).execute();
    for (const row of records.tries) await trx.insertInto('door_tries').values(row).execute();
  });
}
