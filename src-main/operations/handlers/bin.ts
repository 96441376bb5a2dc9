import { refusals } from '../../../src-core/words/en/refusals.ts';
import { appendUnlessOvertaken } from '../../casebook/append-unless-overtaken.ts';
import { binCase, emptyBin, isBinned, listBinned, restoreCase } from '../../casebook/bin.repository.ts';
import { readCase } from '../../casebook/case.repository.ts';
import type { ApplicationContext } from '../application-context.ts';
import { viewCase } from '../case-reader.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

export const caseDelete: Handler<'case:delete'> = async (program, { caseId, revision }) => {
  const { db } = program.casebook;
  const binned = await appendUnlessOvertaken(db, {
    revision,
    standsAt: async (trx) => (await readCase(trx, caseId))?.revision ?? 0,
    write: (trx) => binCase(trx, caseId, program.now().toISOString()),
  });
  // Pressed twice: it is there already.
  if (binned === 'stale' && (await isBinned(db, caseId))) return readBin(program);
  if (binned === 'stale')
    throw new DomainError('stale', refusals.caseMovedOnNotDeleted(), await viewCase(program, caseId));
  return readBin(program);
};

export const binList: Handler<'bin:list'> = (program) => readBin(program);

export const binRestore: Handler<'bin:restore'> = async (program, { caseId }) => {
  const { db } = program.casebook;
  const fault = await db.transaction().execute(async (trx) => {
    const isThere = (await readCase(trx, caseId)) !== undefined;
    if (!(await isBinned(trx, caseId))) return isThere ? null : refusals.notInBin();
    if (isThere) return refusals.cameBackByImport();
    await restoreCase(trx, caseId);
    return null;
  });
  if (fault !== null) throw new DomainError('refused', fault);
  return readBin(program);
};

export const binEmpty: Handler<'bin:empty'> = async (program) => {
  await empty(program, 'all');
  return readBin(program);
};

/** What has lain there for its days goes whenever somebody looks. */
async function readBin(program: ApplicationContext) {
  await empty(program, { olderThanDaysAt: program.now() });
  return { cases: await listBinned(program.casebook.db) };
}

/** The same at a start, so that a promise of 30 days is kept where nobody looks. */
export async function clearOldBin(program: ApplicationContext): Promise<void> {
  if (!program.casebook.isOpen) return;
  try {
    await empty(program, { olderThanDaysAt: program.now() });
  } catch {
    // A full disk, or a casebook that may not be written: it goes at the next start, or when somebody looks.
  }
}

async function empty(program: ApplicationContext, which: Parameters<typeof emptyBin>[1]): Promise<void> {
  const { db, photos } = program.casebook;
  const unnamed = await db.transaction().execute((trx) => emptyBin(trx, which));
  // Only once it is written: a photo too many is better than a case without its own.
  for (const photo of unnamed) await photos.remove(photo);
}
