import type { Selectable } from 'kysely';
import type { CasebookDb } from './casebook.ts';
import type { Tables } from './tables.ts';

export type DoorTriesRow = Selectable<Tables['door_tries']>;

export async function readTries(db: CasebookDb, doors: readonly string[]): Promise<DoorTriesRow[]> {
  return db.selectFrom('door_tries').selectAll().where('door', 'in', doors).execute();
}

export async function saveTries(db: CasebookDb, { door, ...tried }: DoorTriesRow): Promise<void> {
  await db
    .insertInto('door_tries')
    .values({ door, ...tried })
    .onConflict((conflict) => conflict.column('door').doUpdateSet(tried))
    .execute();
}

/** The doors are as if nobody had tried. */
export async function forgetTries(db: CasebookDb, doors: readonly string[]): Promise<void> {
  await db.deleteFrom('door_tries').where('door', 'in', doors).execute();
}

/** Takes away what nobody tried since `before`, ISO 8601, and of more than `most` doors those that were tried longest ago. */
export async function forgetOldTries(db: CasebookDb, before: string, most: number): Promise<void> {
  await db.deleteFrom('door_tries').where('at', '<', before).execute();
  const over = await db
    .selectFrom('door_tries')
    .select('door')
    .orderBy('at', 'desc')
    .orderBy('door')
    .limit(100)
    .offset(most)
    .execute();
  if (over.length > 0)
    await forgetTries(
      db,
      over.map(({ door }) => door),
    );
}
