import type { Spool } from '../../src-core/contract/shop-records.ts';
import type { CasebookDb } from './casebook.ts';
import type { SpoolRow } from './tables.ts';

/** All spools, by label. */
export async function listSpools(db: CasebookDb): Promise<Spool[]> {
  const rows = await db.selectFrom('spools').selectAll().orderBy('label').execute();
  return rows.map(spoolOf);
}

/** Adds a spool, or changes it and moves its revision on. */
export async function saveSpool(db: CasebookDb, spool: Omit<Spool, 'revision'>): Promise<void> {
  const values = {
    label: spool.label,
    polymer: spool.polymer,
    filler: spool.filler,
    filler_percent: spool.fillerPercent,
    storage: spool.storage,
    opened_at: spool.openedAt,
    diameter_mm: spool.filamentDiameterMm,
    filament_grams: spool.filamentGrams,
    body: spool.body,
    supplier: spool.supplier,
    batch: spool.batch,
    tare_grams: spool.tareGrams,
    note: spool.note,
    is_retired: spool.isRetired ? 1 : 0,
    is_demo: spool.isDemo ? 1 : 0,
  };
  await db
    .insertInto('spools')
    .values({ id: spool.id, ...values, revision: 1 })
    .onConflict((conflict) =>
      conflict.column('id').doUpdateSet((eb) => ({ ...values, revision: eb('spools.revision', '+', 1) })),
    )
    .execute();
}

function spoolOf(row: SpoolRow): Spool {
  return {
    id: row.id,
    label: row.label,
    polymer: row.polymer,
    filler: row.filler,
    fillerPercent: row.filler_percent,
    storage: row.storage,
    openedAt: row.opened_at,
    filamentDiameterMm: row.diameter_mm,
    filamentGrams: row.filament_grams,
    body: row.body,
    supplier: row.supplier,
    batch: row.batch,
    tareGrams: row.tare_grams,
    note: row.note,
    isRetired: row.is_retired === 1,
    isDemo: row.is_demo === 1,
    revision: row.revision,
  };
}
