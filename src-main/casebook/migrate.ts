import type { Kysely } from 'kysely';
import { Migrator, type Migration } from 'kysely/migration';
import { first } from './migrations/2026-11-25-first.ts';
import { spoolLife } from './migrations/2026-11-25-spool-life.ts';
import type { Tables } from './tables.ts';

/** All migrations in order of their names. A static list: a folder scan breaks in bundles. */
export const migrations: Readonly<Record<string, Migration>> = {
  '2026-11-25-first': first,
  '2026-11-25-spool-life': spoolLife,
};

function migratorFor(db: Kysely<Tables>, provided = migrations): Migrator {
  return new Migrator({ db, provider: { getMigrations: () => Promise.resolve({ ...provided }) } });
}

/** Names of the migrations that this casebook still lacks. */
export async function pendingMigrations(db: Kysely<Tables>): Promise<readonly string[]> {
  const all = await migratorFor(db).getMigrations();
  return all.filter((one) => one.executedAt === undefined).map((one) => one.name);
}

/** Brings the casebook to today's schema, all or nothing; throws what went wrong. */
export async function migrateToLatest(db: Kysely<Tables>, provided = migrations): Promise<void> {
  const { error } = await migratorFor(db, provided).migrateToLatest();
  if (error)
    throw error instanceof Error ? error : new Error(`the casebook could not be migrated: ${String(error)}`);
}
