import { roomClimateSchema, type RoomClimate } from '../../src-core/contract/spool-life.ts';
import type { CasebookDb } from './casebook.ts';

const CLIMATE = 'room-climate';

/** The air of the shop; unknown where nobody has said, or where what was stored is of another version. */
export async function readClimate(db: CasebookDb): Promise<RoomClimate> {
  const row = await db
    .selectFrom('shop_settings')
    .select('value_json')
    .where('name', '=', CLIMATE)
    .executeTakeFirst();
  const stored = roomClimateSchema.safeParse(row ? JSON.parse(row.value_json) : null);
  return stored.success ? stored.data : { kind: 'unknown' };
}

export async function saveClimate(db: CasebookDb, climate: RoomClimate): Promise<void> {
  const values = { value_json: JSON.stringify(climate) };
  await db
    .insertInto('shop_settings')
    .values({ name: CLIMATE, ...values })
    .onConflict((conflict) => conflict.column('name').doUpdateSet(values))
    .execute();
}
