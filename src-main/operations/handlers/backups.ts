import { readAccessRecords, writeAccessRecords } from '../../casebook/access-carried-over.ts';
import { fileTrouble } from '../../casebook/file-trouble.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

/** Only where the casebook is gone or cut to nothing, or damaged with no good backup. */
export const casebookBeginEmpty: Handler<'casebook:begin-empty'> = async ({ casebook }) => {
  if (!casebook.canBeginEmpty)
    throw new DomainError('refused', 'there is a casebook in its place already; an empty one would lose it');
  return { setAside: await casebook.beginEmpty() };
};

export const backupList: Handler<'backup:list'> = ({ casebook }) => ({
  isCasebookMissing: casebook.canBeginEmpty,
  backups: casebook.listBackups(),
  folder: casebook.backupFolder,
  warning: casebook.warning,
});

export const backupMake: Handler<'backup:make'> = async ({ casebook }) => {
  try {
    return await casebook.makeBackup();
  } catch (error) {
    throw new DomainError('refused', error instanceof Error ? error.message : String(error));
  }
};

export const backupRestore: Handler<'backup:restore'> = async ({ casebook }, { name }) => {
  if (!casebook.canRestore) throw new DomainError('casebook-unavailable', casebook.restoreRefusal);
  const backup = casebook.listBackups().find((one) => one.name === name);
  if (!backup) throw new DomainError('not-found', `there is no backup "${name}" in ${casebook.backupFolder}`);
  if (backup.cases === null)
    throw new DomainError('refused', `the backup "${name}" cannot be read itself; take an older one`);
  const access = casebook.isOpen ? await readAccessRecords(casebook.db) : null;
  try {
    const keptAs = await casebook.restore(name);
    await writeAccessRecords(casebook.db, access);
    return { restored: name, keptAs };
  } catch (error) {
    throw new DomainError(
      'refused',
      `Nothing was restored: ${fileTrouble(error).words}. The casebook is in its place as before.`,
    );
  }
};
