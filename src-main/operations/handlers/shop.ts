import {
  personInputSchema,
  printerInputSchema,
  spoolInputSchema,
  type Shop,
} from '../../../src-core/contract/shop-records.ts';
import { faultOfCondition } from '../../../src-core/session/finding-level.ts';
import { listPeople, savePerson } from '../../casebook/person.repository.ts';
import { listPrinters, savePrinter } from '../../casebook/printer.repository.ts';
import { readClimate, readCosts, saveClimate, saveCosts } from '../../casebook/shop-setting.repository.ts';
import { listSpools, saveSpool } from '../../casebook/spool.repository.ts';
import type { Handler } from '../dispatcher.ts';
import type { Program } from '../program.ts';
import { Refusal } from '../refusal.ts';
import { isStillToCome } from '../still-to-come.ts';

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
  for (const [id, value] of Object.entries(input.conditions)) {
    const fault = faultOfCondition(program.knowledge, id, value);
    if (fault) throw new Refusal('bad-request', `printer "${input.label}": ${fault}`);
  }
  const known = await listPrinters(program.casebook.db);
  const existing = findExisting(known, input.id, 'printer');
  refuseDouble(known, input.id, input.label, 'printer');
  const printer = {
    ...printerInputSchema.parse(input),
    id: input.id ?? program.newId(),
    isDemo: existing?.isDemo ?? false,
  };
  await savePrinter(program.casebook.db, printer, program.now().toISOString());
  return readShop(program);
};

export const saveSpoolCall: Handler<'shop:save-spool'> = async (program, input) => {
  const conditions = {
    polymer: input.polymer,
    filler: input.filler,
    ...(input.storage ? { storage: input.storage } : {}),
  };
  for (const [id, value] of Object.entries(conditions)) {
    const fault = faultOfCondition(program.knowledge, id, value);
    if (fault) throw new Refusal('bad-request', `spool "${input.label}": ${fault}`);
  }
  if (!program.knowledge.spoolBodies.has(input.body ?? 'plastic'))
    throw new Refusal('bad-request', `spool "${input.label}": the guide knows no spool body "${input.body}"`);
  if (input.openedAt && isStillToCome(input.openedAt, program.now()))
    throw new Refusal('bad-request', `spool "${input.label}": opened on a day that is still to come`);
  const known = await listSpools(program.casebook.db);
  const existing = findExisting(known, input.id, 'spool');
  refuseDouble(known, input.id, input.label, 'spool');
  const spool = {
    ...spoolInputSchema.parse(input),
    id: input.id ?? program.newId(),
    isDemo: existing?.isDemo ?? false,
  };
  await saveSpool(program.casebook.db, spool);
  return readShop(program);
};

export const savePersonCall: Handler<'shop:save-person'> = async (program, input) => {
  const known = await listPeople(program.casebook.db);
  const existing = findExisting(known, input.id, 'person');
  refuseDouble(
    known.map((person) => ({ ...person, label: person.initials })),
    input.id,
    input.initials,
    'person',
  );
  const person = {
    ...personInputSchema.parse(input),
    id: input.id ?? program.newId(),
    isDemo: existing?.isDemo ?? false,
  };
  await savePerson(program.casebook.db, person);
  return readShop(program);
};

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
