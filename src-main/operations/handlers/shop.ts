import {
  personInputSchema,
  printerInputSchema,
  spoolInputSchema,
  type Shop,
} from '../../../src-core/contract/shop-records.ts';
import { listPeople, savePerson } from '../../casebook/person.repository.ts';
import { listPrinters, savePrinter } from '../../casebook/printer.repository.ts';
import { readClimate, readCosts, saveClimate, saveCosts } from '../../casebook/shop-setting.repository.ts';
import { listSpools, saveSpool } from '../../casebook/spool.repository.ts';
import type { Handler } from '../dispatcher.ts';
import type { Program } from '../program.ts';
import { Refusal } from '../refusal.ts';
import { faultOfPrinter, faultOfSpool } from '../record-checks.ts';

export async function readShop({ casebook }: Program): Promise<Shop> {
  const [printers, spools, people] = [
    await listPrinters(casebook.db),
    await listSpools(casebook.db),
    await listPeople(casebook.db),
  ];
  const hasDemo = [...printers, ...spools, ...people].some((record) => record.isDemo);
  return {
    printers,
    spools,
    people,
    climate: await readClimate(casebook.db),
    costs: await readCosts(casebook.db),
    hasDemo,
  };
}

/** The air in the shop: how warm and how damp, as far as anybody knows. */
export const saveClimateCall: Handler<'shop:save-climate'> = async (program, climate) => {
  await saveClimate(program.casebook.db, climate);
  return readShop(program);
};

/** What things cost, for planning in money; null for planning in minutes. */
export const saveCostsCall: Handler<'shop:save-costs'> = async (program, { costs }) => {
  await saveCosts(program.casebook.db, costs);
  return readShop(program);
};

export const shopRead: Handler<'shop:read'> = (program) => readShop(program);

export const savePrinterCall: Handler<'shop:save-printer'> = async (program, input) => {
  const { meter, revision, ...given } = printerInputSchema.parse(input);
  refuseFault(faultOfPrinter(program.knowledge, given));
  // Looked up and written in one go: two hands at once cannot both take a name.
  const isStale = await program.casebook.db.transaction().execute(async (db) => {
    const known = await listPrinters(db);
    const existing = findExisting(known, given.id, 'printer');
    if (isOvertaken(existing, revision)) return true;
    if (!given.isRetired) refuseDouble(known, given.id, given.label, 'printer');
    const printer = { ...given, id: given.id ?? program.newId(), isDemo: existing?.isDemo ?? false };
    const fault = await savePrinter(db, printer, program.now().toISOString(), meter);
    refuseFault(fault === null ? null : `printer "${given.label}": ${fault}`);
    return false;
  });
  if (isStale) await refuseStale(program, 'printer');
  return readShop(program);
};

export const saveSpoolCall: Handler<'shop:save-spool'> = async (program, input) => {
  const { revision, ...given } = spoolInputSchema.parse(input);
  refuseFault(faultOfSpool(program.knowledge, given, program.now()));
  const isStale = await program.casebook.db.transaction().execute(async (db) => {
    const known = await listSpools(db);
    const existing = findExisting(known, given.id, 'spool');
    if (isOvertaken(existing, revision)) return true;
    if (!given.isRetired) refuseDouble(known, given.id, given.label, 'spool');
    await saveSpool(db, { ...given, id: given.id ?? program.newId(), isDemo: existing?.isDemo ?? false });
    return false;
  });
  if (isStale) await refuseStale(program, 'spool');
  return readShop(program);
};

export const savePersonCall: Handler<'shop:save-person'> = async (program, input) => {
  const given = personInputSchema.parse(input);
  await program.casebook.db.transaction().execute(async (db) => {
    const known = await listPeople(db);
    const existing = findExisting(known, given.id, 'person');
    const named = known.map((person) => ({ ...person, label: person.initials }));
    if (!given.isRetired) refuseDouble(named, given.id, given.initials, 'person');
    await savePerson(db, { ...given, id: given.id ?? program.newId(), isDemo: existing?.isDemo ?? false });
  });
  return readShop(program);
};

function refuseFault(fault: string | null): void {
  if (fault !== null) throw new Refusal('bad-request', fault);
}

function findExisting<T extends { readonly id: string }>(
  known: readonly T[],
  id: string | undefined,
  what: string,
): T | undefined {
  if (id === undefined) return undefined;
  const found = known.find((record) => record.id === id);
  if (!found) throw new Refusal('not-found', `there is no ${what} with that id any more`);
  return found;
}

/** Whether a record was written since the caller looked at it; a change that does not say what it rests on is refused. */
function isOvertaken(existing: { readonly revision: number } | undefined, revision: number | undefined) {
  if (!existing) return false;
  if (revision === undefined)
    throw new Refusal('bad-request', 'a change needs the revision of what is changed');
  return existing.revision !== revision;
}

/** Outside the transaction: the casebook bears one at a time. */
async function refuseStale(program: Program, what: string): Promise<never> {
  throw new Refusal(
    'stale',
    `This ${what} was changed at another screen meanwhile. Your change was not saved.`,
    await readShop(program),
  );
}

/** Two machines or spools of one name would be mixed up at the bench. */
function refuseDouble(
  known: readonly { readonly id: string; readonly label: string; readonly isRetired: boolean }[],
  id: string | undefined,
  label: string,
  what: string,
): void {
  const twin = known.find(
    (record) => record.id !== id && !record.isRetired && record.label.toLowerCase() === label.toLowerCase(),
  );
  if (twin)
    throw new Refusal(
      'bad-request',
      `there is already a ${what} "${twin.label}"; give this one another name`,
    );
}
