import type { CasebookDb } from './casebook.ts';

export interface AuditEntry {
  readonly id: string;
  /** ISO 8601. */
  readonly at: string;
  readonly who: string;
  readonly what: string;
}

export async function appendAuditEntry(db: CasebookDb, entry: AuditEntry): Promise<void> {
  await db.insertInto('audit_entries').values(entry).execute();
}

/** The newest first. */
export async function listAuditEntries(db: CasebookDb, limit: number): Promise<Omit<AuditEntry, 'id'>[]> {
  return db
    .selectFrom('audit_entries')
    .select(['at', 'who', 'what'])
    .orderBy('id', 'desc')
    .limit(limit)
    .execute();
}

/** Entries that have these letters anywhere. */
export async function listAuditEntriesWith(db: CasebookDb, letters: string): Promise<AuditEntry[]> {
  const rows = await db.selectFrom('audit_entries').select(['id', 'at', 'who', 'what']).execute();
  return rows.filter(({ who, what }) => who.includes(letters) || what.includes(letters));
}

export async function updateAuditEntry(
  db: CasebookDb,
  id: string,
  entry: Pick<AuditEntry, 'who' | 'what'>,
): Promise<void> {
  await db.updateTable('audit_entries').set(entry).where('id', '=', id).execute();
}
