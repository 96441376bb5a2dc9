import { z } from 'zod';
import { shopCostsSchema, type ShopCosts } from '../../src-core/contract/shop-costs.ts';
import { roomClimateSchema, type RoomClimate } from '../../src-core/contract/spool-life.ts';
import { isTimeZone } from '../../src-core/recurrence/shop-calendar.ts';
import type { CasebookDb } from './casebook.ts';

const CLIMATE = 'room-climate';
const COSTS = 'costs';
const TIME_ZONE = 'time-zone';

const timeZoneSchema = z.string().refine(isTimeZone);

/** The air of the shop; unknown where nobody has said, or where what was stored is of another version. */
export async function readClimate(db: CasebookDb): Promise<RoomClimate> {
  return (await read(db, CLIMATE, roomClimateSchema)) ?? { kind: 'unknown' };
}

export function saveClimate(db: CasebookDb, climate: RoomClimate): Promise<void> {
  return save(db, CLIMATE, climate);
}

/** What things cost; null where nobody has said, or where what was stored is of another version. */
export function readCosts(db: CasebookDb): Promise<ShopCosts | null> {
  return read(db, COSTS, shopCostsSchema);
}

export function saveCosts(db: CasebookDb, costs: ShopCosts | null): Promise<void> {
  return save(db, COSTS, costs);
}

/** The zone by whose clock the shop counts days and months; null where nobody has said, or this machine does not know it. */
export function readTimeZone(db: CasebookDb): Promise<string | null> {
  return read(db, TIME_ZONE, timeZoneSchema);
}

export function saveTimeZone(db: CasebookDb, timeZone: string | null): Promise<void> {
  return save(db, TIME_ZONE, timeZone);
}

async function read<S extends z.ZodType>(
  db: CasebookDb,
  name: string,
  schema: S,
): Promise<z.output<S> | null> {
  const row = await db
    .selectFrom('shop_settings')
    .select('value_json')
    .where('name', '=', name)
    .executeTakeFirst();
  const stored = schema.safeParse(row ? JSON.parse(row.value_json) : null);
  return stored.success ? stored.data : null;
}

async function save(db: CasebookDb, name: string, value: unknown): Promise<void> {
  const values = { value_json: JSON.stringify(value) };
  await db
    .insertInto('shop_settings')
    .values({ name, ...values })
    .onConflict((conflict) => conflict.column('name').doUpdateSet(values))
    .execute();
}
