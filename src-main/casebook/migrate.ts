import type Database from 'better-sqlite3';
import type { Kysely } from 'kysely';
import { Migrator, type Migration } from 'kysely/migration';
import { first } from './migrations/2026-11-25-first.ts';
import { spoolLife } from './migrations/2026-11-25-spool-life.ts';
import { door } from './migrations/2026-12-08-door.ts';
import { caseLinks } from './migrations/2026-12-06-case-links.ts';
import { causesAtHand } from './migrations/2026-12-08-causes-at-hand.ts';
import { caseConclusions } from './migrations/2026-12-07-case-conclusions.ts';
import { caseSearch } from './migrations/2026-12-05-case-search.ts';
import { listIndexes } from './migrations/2026-12-04-list-indexes.ts';
import { importsAndBin } from './migrations/2026-12-02-imports-and-bin.ts';
import { maintenance } from './migrations/2026-12-01-maintenance.ts';
import { metersAndIndexes } from './migrations/2026-11-26-meters-and-indexes.ts';
import { spoolOrigin } from './migrations/2026-11-27-spool-origin.ts';
import { actions } from './migrations/2026-11-29-actions.ts';
import { recordRevisions } from './migrations/2026-11-28-record-revisions.ts';
import { settingRevisions } from './migrations/2026-11-29-setting-revisions.ts';
import { stepsAndGuides } from './migrations/2026-11-26-steps-and-guides.ts';
import { trainingResults } from './migrations/2026-11-30-training-results.ts';
import { devices } from './migrations/2026-12-01-devices.ts';
import { profiles } from './migrations/2026-12-09-profiles.ts';
import { tags } from './migrations/2026-12-10-tags.ts';
import { votes } from './migrations/2026-12-07-votes.ts';
import { whoDidIt } from './migrations/2026-12-11-who-did-it.ts';
import { TABLE_NAMES, type Tables } from './tables.ts';

/** All migrations in order of their names. A static list: a folder scan breaks in bundles. */
export const migrations: Readonly<Record<string, Migration>> = {
  '2026-11-25-first': first,
  '2026-11-25-spool-life': spoolLife,
  '2026-11-26-meters-and-indexes': metersAndIndexes,
  '2026-11-26-steps-and-guides': stepsAndGuides,
  '2026-11-27-spool-origin': spoolOrigin,
  '2026-11-28-record-revisions': recordRevisions,
  '2026-11-29-actions': actions,
  '2026-11-29-setting-revisions': settingRevisions,
  '2026-11-30-training-results': trainingResults,
  '2026-12-01-devices': devices,
  '2026-12-01-maintenance': maintenance,
  '2026-12-02-imports-and-bin': importsAndBin,
  '2026-12-04-list-indexes': listIndexes,
  '2026-12-05-case-search': caseSearch(),
  '2026-12-06-case-links': caseLinks,
  '2026-12-07-case-conclusions': caseConclusions,
  '2026-12-07-votes': votes,
  '2026-12-08-causes-at-hand': causesAtHand,
  '2026-12-08-door': door,
  '2026-12-09-profiles': profiles,
  '2026-12-10-tags': tags,
  '2026-12-11-who-did-it': whoDidIt,
};

/** Day and subject. */
const MIGRATION_NAME = /^\d{4}-\d{2}-\d{2}-[a-z0-9-]+$/;

function migratorFor(db: Kysely<Tables>, provided = migrations): Migrator {
  return new Migrator({ db, provider: { getMigrations: () => Promise.resolve({ ...provided }) } });
}

/** Names of the migrations that this casebook still lacks. */
export async function pendingMigrations(
  db: Kysely<Tables>,
  provided = migrations,
): Promise<readonly string[]> {
  const all = await migratorFor(db, provided).getMigrations();
  return all.filter((one) => one.executedAt === undefined).map((one) => one.name);
}

export type UnknownMigrations =
  | { readonly kind: 'none' }
  /** A newer version wrote it: all of ours are there, and these. */
  | { readonly kind: 'newer'; readonly names: readonly string[] }
  /** Names that no version gives, or some in place of ours: the list itself is damaged. */
  | { readonly kind: 'unreadable' };

/** What a casebook's list of migrations says of its version, beyond what this one knows. */
export function unknownAmong(names: readonly string[], known = migrations): UnknownMigrations {
  const unknown = names.filter((name) => !(name in known));
  if (unknown.length === 0) return { kind: 'none' };
  const isNewer =
    unknown.every((name) => MIGRATION_NAME.test(name)) &&
    Object.keys(known).every((name) => names.includes(name));
  return isNewer ? { kind: 'newer', names: unknown } : { kind: 'unreadable' };
}

/** The same of a file's. */
export function unknownMigrations(database: Database.Database): UnknownMigrations {
  const table = database
    .prepare("select 1 from sqlite_master where type = 'table' and name = 'kysely_migration'")
    .get();
  if (!table) return { kind: 'none' };
  const rows = database.prepare<[], { name: unknown }>('select name from kysely_migration').all();
  return unknownAmong(rows.map(({ name }) => String(name)));
}

/** All migrations; the long one tells how far it is. */
export function migrationsTelling(onProgress: (share: number) => void): typeof migrations {
  return { ...migrations, '2026-12-05-case-search': caseSearch(onProgress) };
}

/** Brings the casebook to today's schema, all or nothing; throws what went wrong. */
export async function migrateToLatest(db: Kysely<Tables>, provided = migrations): Promise<void> {
  const { error } = await migratorFor(db, provided).migrateToLatest();
  if (error)
    throw error instanceof Error ? error : new Error(`the casebook could not be migrated: ${String(error)}`);
}

/** Tables without which a casebook is none, that a database brought to today's form lacks all the same. */
export function missingTables(database: Database.Database): readonly string[] {
  const there = new Set(
    database
      .prepare<[], { name: string }>("select name from sqlite_master where type = 'table'")
      .all()
      .map(({ name }) => name),
  );
  return TABLE_NAMES.filter((name) => !there.has(name));
}
