import type { KnowledgeFile } from '../../src-core/knowledge/schema.ts';
import type { CasebookDb } from './casebook.ts';
import { pack, unpack } from './packed.ts';

/** Keeps a guide under its version, once; `files` is asked for only then, and null keeps none. Within the caller's transaction. */
export async function keepGuide(
  trx: CasebookDb,
  version: string,
  at: string,
  files: (() => readonly KnowledgeFile[]) | null,
): Promise<void> {
  if (!files) return;
  const known = await trx
    .selectFrom('guides')
    .select('version')
    .where('version', '=', version)
    .executeTakeFirst();
  if (known) return;
  await trx
    .insertInto('guides')
    .values({ version, first_used_at: at, files_deflated: pack(files()) })
    .execute();
}

/** The parsed files of a guide that entries of this casebook were made under; null where it is not kept or damaged. */
export async function readGuide(db: CasebookDb, version: string): Promise<readonly KnowledgeFile[] | null> {
  const row = await db
    .selectFrom('guides')
    .select('files_deflated')
    .where('version', '=', version)
    .executeTakeFirst();
  const files = row && unpack(row.files_deflated);
  return Array.isArray(files) ? (files as KnowledgeFile[]) : null;
}
