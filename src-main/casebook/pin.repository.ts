import type { CasebookDb } from './casebook.ts';

export async function readPinHash(db: CasebookDb, personId: string): Promise<string | null> {
  const row = await db
    .selectFrom('person_pins')
    .select('pin_hash')
    .where('person_id', '=', personId)
    .executeTakeFirst();
  return row?.pin_hash ?? null;
}

/** People in the shop who have a PIN, by initials. */
export async function listPeopleWithPin(db: CasebookDb): Promise<{ id: string; initials: string }[]> {
  return db
    .selectFrom('people')
    .innerJoin('person_pins', 'person_pins.person_id', 'people.id')
    .select(['people.id', 'initials'])
    .where('is_retired', '=', 0)
    .orderBy('initials')
    .execute();
}

/** Keeps a PIN's hash, or takes it away. */
export async function savePinHash(db: CasebookDb, personId: string, pinHash: string | null): Promise<void> {
  await db.deleteFrom('person_pins').where('person_id', '=', personId).execute();
  if (pinHash !== null)
    await db.insertInto('person_pins').values({ person_id: personId, pin_hash: pinHash }).execute();
}
