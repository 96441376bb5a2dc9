import { readAccessRecords, writeAccessRecords } from '../../casebook/access-carried-over.ts';
import type { Casebook, FileUpkeep } from '../../casebook/casebook.ts';
import { fileTrouble } from '../../casebook/file-trouble.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

/** Only where the casebook is gone or cut to nothing, or damaged with no good backup. */
export const casebookBeginEmpty: Handler<'casebook:begin-empty'> = async ({ casebook }) => {
  const upkeep = ofAFile(casebook);
  if (!upkeep.canBeginEmpty)
    throw new DomainError('refused', 'there is a casebook in its place already; an empty one would lose it');
  return { setAside: await upkeep.beginEmpty() };
};

export const backupList: Handler<'backup:list'> = ({ casebook }) => ({
  isCasebookMissing: casebook.upkeep?.canBeginEmpty ?? false,
  backups: casebook.upkeep?.listBackups() ?? [],
  folder: casebook.upkeep?.backupFolder ?? '',
  warning: casebook.warning,
  dumps: casebook.dumps?.() ?? null,
});

export const backupMake: Handler<'backup:make'> = async ({ casebook }) => {
  const upkeep = ofAFile(casebook);
  try {
    return await upkeep.makeBackup();
  } catch (error) {
    throw new DomainError('refused', error instanceof Error ? error.message : String(error));
  }
};

export const backupRestore: Handler<'backup:restore'> = async ({ casebook }, { name }) => {
  const upkeep = ofAFile(casebook);
  if (!upkeep.canRestore) throw new DomainError('casebook-unavailable', upkeep.restoreRefusal);
  const backup = upkeep.listBackups().find((one) => one.name === name);
  if (!backup) throw new DomainError('not-found', `there is no backup "${name}" in ${upkeep.backupFolder}`);
  if (backup.cases === null)
    throw new DomainError('refused', `the backup "${name}" cannot be read itself; take an older one`);
  const access = casebook.isOpen ? await readAccessRecords(casebook.db) : null;
  try {
    const keptAs = await upkeep.restore(name);
    await writeAccessRecords(casebook.db, access);
    return { restored: name, keptAs };
  } catch (error) {
    throw new DomainError(
      'refused',
      `Nothing was restored: ${fileTrouble(error).words}. The casebook is in its place as before.`,
    );
  }
};

function ofAFile(casebook: Casebook): FileUpkeep {
  if (casebook.upkeep) return casebook.upkeep;
  const how = casebook.dumps?.();
  throw new DomainError(
    'refused',
    `This casebook is in PostgreSQL, whose own programs copy it and put it back.${how ? ` A copy: ${how.make}` : ''}`,
  );
}
