import { refusals } from '../../../src-core/words/en/refusals.ts';
import { readAccessRecords, writeAccessRecords } from '../../casebook/access-carried-over.ts';
import type { Casebook, FileUpkeep } from '../../casebook/casebook.ts';
import { fileTrouble } from '../../casebook/file-trouble.ts';
import { SaidError } from '../../../src-core/words/said-error.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

/** Only where the casebook is gone or cut to nothing, or damaged with no good backup. */
export const casebookBeginEmpty: Handler<'casebook:begin-empty'> = async ({ casebook }) => {
  const upkeep = ofAFile(casebook);
  if (!upkeep.canBeginEmpty) throw new DomainError('refused', refusals.casebookThere());
  return { setAside: await upkeep.beginEmpty() };
};

export const backupList: Handler<'backup:list'> = ({ casebook }) => ({
  isCasebookMissing: casebook.upkeep?.canBeginEmpty ?? false,
  backups: casebook.upkeep?.listBackups() ?? [],
  folder: casebook.upkeep?.backupFolder ?? '',
  warning: casebook.warnings.length > 0 ? [...casebook.warnings] : null,
  dumps: casebook.dumps?.() ?? null,
});

export const backupMake: Handler<'backup:make'> = async ({ casebook }) => {
  const upkeep = ofAFile(casebook);
  try {
    return await upkeep.makeBackup();
  } catch (error) {
    if (error instanceof SaidError) throw new DomainError('refused', error.said);
    throw error;
  }
};

export const backupRestore: Handler<'backup:restore'> = async ({ casebook }, { name }) => {
  const upkeep = ofAFile(casebook);
  if (!upkeep.canRestore) throw new DomainError('casebook-unavailable', upkeep.restoreRefusal);
  const backup = upkeep.listBackups().find((one) => one.name === name);
  if (!backup)
    throw new DomainError('not-found', refusals.noSuchBackup({ name, folder: upkeep.backupFolder }));
  if (backup.cases === null) throw new DomainError('refused', refusals.backupUnreadable({ name }));
  const access = casebook.isOpen ? await readAccessRecords(casebook.db) : null;
  try {
    const keptAs = await upkeep.restore(name);
    await writeAccessRecords(casebook.db, access);
    return { restored: name, keptAs };
  } catch (error) {
    throw new DomainError('refused', refusals.nothingRestored({ why: fileTrouble(error).why }));
  }
};

function ofAFile(casebook: Casebook): FileUpkeep {
  if (casebook.upkeep) return casebook.upkeep;
  const how = casebook.dumps?.();
  throw new DomainError(
    'refused',
    how ? [refusals.inPostgres(), refusals.copyBy({ how: how.make })] : refusals.inPostgres(),
  );
}
