import type { Selectable } from 'kysely';
import type { CasebookDb } from './casebook.ts';
import type { Tables } from './tables.ts';

export type JoinCodeRow = Selectable<Tables['join_codes']>;

/** Keeps a code that waits for a device; of more than `most` the ones that end first go. */
export async function keepJoinCode(db: CasebookDb, row: JoinCodeRow, most: number): Promise<void> {
  await db.insertInto('join_codes').values(row).execute();
  const over = await db
    .selectFrom('join_codes')
    .select('code_hash')
    .orderBy('expires_at', 'desc')
    .orderBy('code_hash')
    .limit(1000)
    .offset(most)
    .execute();
  for (const { code_hash } of over)
    await db.deleteFrom('join_codes').where('code_hash', '=', code_hash).execute();
}

/** What a code lets in as, and takes it away: of two who use it at once, at whatever stations, one has it. */
export async function takeJoinCode(db: CasebookDb, codeHash: string): Promise<JoinCodeRow | null> {
  const row = await db
    .deleteFrom('join_codes')
    .where('code_hash', '=', codeHash)
    .returningAll()
    .executeTakeFirst();
  return row ?? null;
}

/** Takes away codes that ended by this time, ISO 8601. */
export async function forgetJoinCodes(db: CasebookDb, until: string): Promise<void> {
  await db.deleteFrom('join_codes').where('expires_at', '<=', until).execute();
}
