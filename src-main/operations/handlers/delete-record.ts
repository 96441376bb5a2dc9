import { refusals } from '../../../src-core/words/en/refusals.ts';
import { appendUnlessOvertaken } from '../../casebook/append-unless-overtaken.ts';
import { listPrinters } from '../../casebook/printer.repository.ts';
import { countCasesNaming, deletePrinters, deleteSpools } from '../../casebook/record-removal.repository.ts';
import { listSpools } from '../../casebook/spool.repository.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';
import { readShop } from './shop.ts';

/**
 * Deletes a printer or spool that no case names: one added by mistake, or left of the demo shop by a trial case. What cases
 * name stays, since they would no longer say where they happened.
 */
export const deleteRecord: Handler<'shop:delete-record'> = async (program, { kind, id, revision }) => {
  const done = await appendUnlessOvertaken(program.casebook.db, {
    revision,
    standsAt: async (db) => {
      const records = kind === 'printer' ? await listPrinters(db) : await listSpools(db);
      return records.find((record) => record.id === id)?.revision ?? 0;
    },
    write: async (trx) => {
      const cases = await countCasesNaming(trx, kind, id);
      if (cases > 0)
        throw new DomainError(
          'refused',
          kind === 'printer'
            ? refusals.casesNamePrinter({ count: cases })
            : refusals.casesNameSpool({ count: cases }),
        );
      if (kind === 'printer') await deletePrinters(trx, [id]);
      else await deleteSpools(trx, [id]);
    },
  });
  if (done === 'stale')
    throw new DomainError(
      'stale',
      kind === 'printer' ? refusals.printerMovedOnNotDeleted() : refusals.spoolMovedOnNotDeleted(),
      await readShop(program),
    );
  return readShop(program);
};
