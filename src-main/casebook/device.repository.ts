import { ROLES, type Role } from '../../src-core/contract/roles.ts';
import type { Device } from '../../src-core/contract/access-view.ts';
import type { CasebookDb } from './casebook.ts';
import type { DeviceRow } from './tables.ts';

/** A device as it stands at the door, with whoever is signed in on it. */
export interface KnownDevice {
  readonly row: DeviceRow;
  readonly role: Role;
  readonly person: { readonly id: string; readonly initials: string; readonly role: Role } | null;
}

/** A device that has joined and was not revoked. */
export async function readDevice(db: CasebookDb, id: string): Promise<KnownDevice | null> {
  const row = await db
    .selectFrom('devices')
    .selectAll()
    .where('id', '=', id)
    .where('revoked_at', 'is', null)
    .executeTakeFirst();
  if (!row) return null;
  const person =
    row.person_id === null
      ? undefined
      : await db
          .selectFrom('people')
          .select(['id', 'initials', 'role'])
          .where('id', '=', row.person_id)
          .where('is_retired', '=', 0)
          .executeTakeFirst();
  return {
    row,
    role: roleOf(row.role),
    person: person ? { ...person, role: roleOf(person.role) } : null,
  };
}

/** Devices that are let in, by name. */
export async function listDevices(db: CasebookDb): Promise<Device[]> {
  const rows = await db
    .selectFrom('devices')
    .leftJoin('people', 'people.id', 'devices.person_id')
    .select(['devices.id', 'label', 'devices.role', 'printer_id', 'joined_at', 'seen_at', 'initials'])
    .where('revoked_at', 'is', null)
    .orderBy('label')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    label: row.label,
    role: roleOf(row.role),
    printerId: row.printer_id,
    joinedAt: row.joined_at,
    seenAt: row.seen_at,
    signedIn: row.initials,
  }));
}

export async function insertDevice(
  db: CasebookDb,
  device: Pick<DeviceRow, 'id' | 'label' | 'role' | 'printer_id' | 'secret_hash' | 'joined_at'>,
): Promise<void> {
  await db
    .insertInto('devices')
    .values({
      ...device,
      rotated_at: device.joined_at,
      previous_hash: null,
      seen_at: null,
      revoked_at: null,
      person_id: null,
      person_active_at: null,
    })
    .execute();
}

/** Changes a device that is let in; false where there is none of that id. */
export async function updateDevice(
  db: CasebookDb,
  id: string,
  changed: Partial<Omit<DeviceRow, 'id'>>,
): Promise<boolean> {
  const { numUpdatedRows } = await db
    .updateTable('devices')
    .set(changed)
    .where('id', '=', id)
    .where('revoked_at', 'is', null)
    .executeTakeFirst();
  return numUpdatedRows > 0n;
}

/** Whoever is signed in somewhere under this id is so no more. */
export async function signOutEverywhere(db: CasebookDb, personId: string): Promise<void> {
  await db
    .updateTable('devices')
    .set({ person_id: null, person_active_at: null })
    .where('person_id', '=', personId)
    .execute();
}

/** What is not known to this version gets the least rights. */
function roleOf(text: string): Role {
  return ROLES.find((role) => role === text) ?? 'operator';
}
