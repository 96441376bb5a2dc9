import { z } from 'zod';
import { photoHashSchema } from '../../src-core/contract/common.ts';
import { FIRST_DISPLAY, type Display } from '../../src-core/contract/display-choices.ts';
import { shopCostsSchema, type ShopCosts } from '../../src-core/contract/shop-costs.ts';
import {
  NOT_COUNTED,
  ownExperienceChoiceSchema,
  type OwnExperienceChoice,
} from '../../src-core/contract/own-experience-view.ts';
import { maintenancePlanSchema, type MaintenancePlan } from '../../src-core/contract/maintenance-view.ts';
import {
  spreadsheetMappingSchema,
  type SpreadsheetMapping,
} from '../../src-core/contract/spreadsheet-view.ts';
import { monthHumiditySchema, type MonthHumidity } from '../../src-core/contract/season-view.ts';
import { usualHoursSchema, type UsualHoursByPrinter } from '../../src-core/contract/recurrence-view.ts';
import { savedViewsSchema, type SavedView } from '../../src-core/contract/saved-views.ts';
import { displaySchema } from '../../src-core/contract/shop-records.ts';
import { roomClimateSchema, type RoomClimate } from '../../src-core/contract/spool-life.ts';
import { isTimeZone } from '../../src-core/recurrence/shop-calendar.ts';
import type { CasebookDb } from './casebook.ts';

/** What the shop can set, by the names that it is stored under. */
const SCHEMAS = {
  'room-climate': roomClimateSchema,
  costs: shopCostsSchema.nullable(),
  display: displaySchema,
  'own-experience': ownExperienceChoiceSchema,
  'maintenance-plan': maintenancePlanSchema,
  'case-views': savedViewsSchema,
  'spreadsheet-mapping': spreadsheetMappingSchema,
  /** Photos that were looked at, one by one, and may be seen by trainees. */
  'practice-photos': z.array(photoHashSchema).max(5000),
  'month-humidity': monthHumiditySchema,
  'usual-hours': usualHoursSchema,
  'time-zone': z.string().refine(isTimeZone).nullable(),
} as const;

export type SettingName = keyof typeof SCHEMAS;
export type SettingValue<N extends SettingName> = z.output<(typeof SCHEMAS)[N]>;

export interface StoredSetting<T> {
  readonly value: T;
  /** How often it was written; 0 where nobody has said anything yet. */
  readonly revision: number;
}

/** The air of the shop; unknown where nobody has said, or where what was stored is of another version. */
export async function readClimate(db: CasebookDb): Promise<StoredSetting<RoomClimate>> {
  return orElse(await read(db, 'room-climate'), { kind: 'unknown' });
}

/** What things cost; null where nobody has said, or where what was stored is of another version. */
export async function readCosts(db: CasebookDb): Promise<StoredSetting<ShopCosts | null>> {
  return orElse(await read(db, 'costs'), null);
}

/** How screens show things; as the system and in °C where nobody has said. */
export async function readDisplay(db: CasebookDb): Promise<StoredSetting<Display>> {
  return orElse(await read(db, 'display'), FIRST_DISPLAY);
}

/** Whether the shop's own cases count beside the guide; they do not until somebody says so. */
export async function readExperienceChoice(db: CasebookDb): Promise<StoredSetting<OwnExperienceChoice>> {
  return orElse(await read(db, 'own-experience'), NOT_COUNTED);
}

/** What the shop keeps otherwise than the guide says. */
export async function readMaintenancePlan(db: CasebookDb): Promise<StoredSetting<MaintenancePlan>> {
  return orElse(await read(db, 'maintenance-plan'), { rules: [] });
}

/** How a spreadsheet's columns were read last; null where none was imported yet. */
export async function readSpreadsheetMapping(db: CasebookDb): Promise<SpreadsheetMapping | null> {
  return (await read(db, 'spreadsheet-mapping')).value ?? null;
}

/** Views of the casebook that the shop keeps. */
export async function readSavedViews(db: CasebookDb): Promise<StoredSetting<SavedView[]>> {
  return orElse(await read(db, 'case-views'), []);
}

/** Photos that trainees may see; none until somebody has checked them off. */
export async function readPracticePhotos(db: CasebookDb): Promise<readonly string[]> {
  return (await read(db, 'practice-photos')).value ?? [];
}

/** Checks a photo off, or takes that back; where it stands so already nothing is written. */
export async function freePracticePhoto(db: CasebookDb, photo: string, isFree: boolean): Promise<void> {
  await db.transaction().execute(async (trx) => {
    const free = await readPracticePhotos(trx);
    if (free.includes(photo) === isFree) return;
    await saveSetting(
      trx,
      'practice-photos',
      isFree ? [...free, photo] : free.filter((one) => one !== photo),
    );
  });
}

/** Humidity that somebody read, by month. */
export async function readMonthHumidity(db: CasebookDb): Promise<StoredSetting<MonthHumidity>> {
  return orElse(await read(db, 'month-humidity'), {});
}

/** What printers print in a usual week, by id, where somebody has said. */
export async function readUsualHours(db: CasebookDb): Promise<UsualHoursByPrinter> {
  return (await read(db, 'usual-hours')).value ?? {};
}

/** The zone by whose clock the shop counts days and months; null where nobody has said, or this machine does not know it. */
export async function readTimeZone(db: CasebookDb): Promise<string | null> {
  return (await read(db, 'time-zone')).value ?? null;
}

function orElse<T>({ value, revision }: StoredSetting<T | undefined>, otherwise: T): StoredSetting<T> {
  return { value: value === undefined ? otherwise : value, revision };
}

async function read<N extends SettingName>(
  db: CasebookDb,
  name: N,
): Promise<StoredSetting<SettingValue<N> | undefined>> {
  const row = await db
    .selectFrom('shop_settings')
    .select(['value_json', 'revision'])
    .where('name', '=', name)
    .executeTakeFirst();
  if (!row) return { value: undefined, revision: 0 };
  return { value: valueOf(row.value_json, name), revision: row.revision };
}

function valueOf<N extends SettingName>(json: string, name: N): SettingValue<N> | undefined {
  try {
    return SCHEMAS[name].parse(JSON.parse(json)) as SettingValue<N>;
  } catch {
    return undefined;
  }
}

/** The revision of a setting; 0 where nobody has said anything yet. */
export async function settingRevision(db: CasebookDb, name: SettingName): Promise<number> {
  return (await read(db, name)).revision;
}

/** Keeps a setting and moves its revision on. */
export async function saveSetting<N extends SettingName>(
  db: CasebookDb,
  name: N,
  value: SettingValue<N>,
): Promise<void> {
  const values = { value_json: JSON.stringify(value) };
  await db
    .insertInto('shop_settings')
    .values({ name, ...values, revision: 1 })
    .onConflict((conflict) =>
      conflict
        .column('name')
        .doUpdateSet((eb) => ({ ...values, revision: eb('shop_settings.revision', '+', 1) })),
    )
    .execute();
}
