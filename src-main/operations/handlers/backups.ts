import type { Handler } from '../dispatcher.ts';
import { Refusal } from '../refusal.ts';

/** Only where the casebook is gone and backups tell that there was one. */
export const casebookBeginEmpty: Handler<'casebook:begin-empty'> = async ({ casebook }) => {
  if (!casebook.isMissing)
    throw new Refusal('refused', 'there is a casebook in its place already; an empty one would lose it');
  return { setAside: await casebook.beginEmpty() };
};

export const backupList: Handler<'backup:list'> = ({ casebook }) => ({
  isCasebookMissing: casebook.isMissing,
  backups: casebook.listBackups(),
  folder: casebook.backupFolder,
});

export const backupMake: Handler<'backup:make'> = ({ casebook }) => casebook.makeBackup();

export const backupRestore: Handler<'backup:restore'> = async ({ casebook }, { name }) => {
  if (!casebook.canRestore) throw new Refusal('casebook-unavailable', casebook.problem);
  const backup = casebook.listBackups().find((one) => one.name === name);
  if (!backup) throw new Refusal('not-found', `there is no backup "${name}" in ${casebook.backupFolder}`);
  if (backup.cases === null)
    throw new Refusal('refused', `the backup "${name}" cannot be read itself; take an older one`);
  const keptAs = await casebook.restore(name);
  return { restored: name, keptAs };
};
