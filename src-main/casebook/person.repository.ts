import { ROLES } from '../../src-core/contract/roles.ts';
import type { Person } from '../../src-core/contract/shop-records.ts';
import type { CasebookDb } from './casebook.ts';

/** All people, by initials. */
export async function listPeople(db: CasebookDb): Promise<Person[]> {
  const rows = await db.selectFrom('people').selectAll().orderBy('initials').execute();
  return rows.map((row) => ({
    id: row.id,
    initials: row.initials,
    role: ROLES.find((role) => role === row.role) ?? 'operator',
    isRetired: row.is_retired === 1,
    isDemo: row.is_demo === 1,
    revision: row.revision,
  }));
}

/** Adds a person, or changes one and moves the revision on. */
export async function savePerson(db: CasebookDb, person: Omit<Person, 'revision'>): Promise<void> {
  const values = {
    initials: person.initials,
    role: person.role,
    is_retired: person.isRetired ? 1 : 0,
    is_demo: person.isDemo ? 1 : 0,
  };
  await db
    .insertInto('people')
    .values({ id: person.id, ...values, revision: 1 })
    .onConflict((conflict) =>
      conflict.column('id').doUpdateSet((eb) => ({ ...values, revision: eb('people.revision', '+', 1) })),
    )
    .execute();
}

/** Deletes a person's record; what was kept of their training goes first. */
export async function deletePerson(db: CasebookDb, personId: string): Promise<void> {
  await db.deleteFrom('people').where('id', '=', personId).execute();
}
