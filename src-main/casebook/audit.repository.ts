import { messageSchema } from '../../src-core/contract/message.ts';
import type { Message, Words } from '../../src-core/words/message.ts';
import type { CasebookDb } from './casebook.ts';

export interface AuditEntry {
  readonly id: string;
  /** ISO 8601. */
  readonly at: string;
  /** Both as sentences where they were written before 28 November 2026. */
  readonly who: Words;
  readonly what: Words;
}

export async function appendAuditEntry(
  db: CasebookDb,
  entry: { readonly id: string; readonly at: string; readonly who: Message; readonly what: Message },
): Promise<void> {
  await db
    .insertInto('audit_entries')
    .values({ ...entry, who: stored(entry.who), what: stored(entry.what) })
    .execute();
}

/** The newest first. */
export async function listAuditEntries(db: CasebookDb, limit: number): Promise<Omit<AuditEntry, 'id'>[]> {
  const rows = await db
    .selectFrom('audit_entries')
    .select(['at', 'who', 'what'])
    .orderBy('id', 'desc')
    .limit(limit)
    .execute();
  return rows.map(({ at, who, what }) => ({ at, who: asSaid(who), what: asSaid(what) }));
}

/** Entries that have these letters anywhere. */
export async function listAuditEntriesWith(db: CasebookDb, letters: string): Promise<AuditEntry[]> {
  const rows = await db.selectFrom('audit_entries').select(['id', 'at', 'who', 'what']).execute();
  return rows
    .filter(({ who, what }) => who.includes(letters) || what.includes(letters))
    .map(({ id, at, who, what }) => ({ id, at, who: asSaid(who), what: asSaid(what) }));
}

export async function updateAuditEntry(
  db: CasebookDb,
  id: string,
  { who, what }: Pick<AuditEntry, 'who' | 'what'>,
): Promise<void> {
  await db
    .updateTable('audit_entries')
    .set({ who: stored(who), what: stored(what) })
    .where('id', '=', id)
    .execute();
}

/** A message lies there as JSON, a sentence of an earlier version as it is. */
function stored(words: Words): string {
  return typeof words === 'string' ? words : JSON.stringify(words);
}

function asSaid(text: string): Words {
  if (!text.startsWith('{')) return text;
  try {
    const read = messageSchema.safeParse(JSON.parse(text));
    return read.success ? read.data : text;
  } catch {
    return text;
  }
}
