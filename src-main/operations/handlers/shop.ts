import {
  personInputSchema,
  printerInputSchema,
  spoolInputSchema,
  type Shop,
} from '../../../src-core/contract/shop-records.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { faults } from '../../../src-core/words/en/faults.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { appendUnlessOvertaken } from '../../casebook/append-unless-overtaken.ts';
import type { CasebookDb } from '../../casebook/casebook.ts';
import { listPeople, savePerson } from '../../casebook/person.repository.ts';
import { listPrinters, savePrinter } from '../../casebook/printer.repository.ts';
import {
  readClimate,
  readCosts,
  readDisplay,
  saveSetting,
  settingRevision,
  type SettingName,
  type SettingValue,
} from '../../casebook/shop-setting.repository.ts';
import { listSpools, saveSpool } from '../../casebook/spool.repository.ts';
import type { Handler } from '../dispatcher.ts';
import type { ApplicationContext } from '../application-context.ts';
import { DomainError } from '../domain-error.ts';
import { faultOfPrinter, faultOfSpool } from '../record-checks.ts';

export async function readShop({ casebook: { db } }: ApplicationContext): Promise<Shop> {
  const [printers, spools, people] = [await listPrinters(db), await listSpools(db), await listPeople(db)];
  const [climate, costs, display] = [await readClimate(db), await readCosts(db), await readDisplay(db)];
  return {
    printers,
    spools,
    people,
    climate: climate.value,
    costs: costs.value,
    display: display.value,
    revisions: { climate: climate.revision, costs: costs.revision, display: display.revision },
    hasDemo: [...printers, ...spools, ...people].some((record) => record.isDemo),
  };
}

export const shopRead: Handler<'shop:read'> = (program) => readShop(program);

/** The air in the shop: how warm and how damp, as far as anybody knows. */
export const saveClimateCall: Handler<'shop:save-climate'> = (program, { climate, revision }) =>
  saveSettingUnlessOvertaken(program, 'room-climate', climate, revision);

/** What things cost, for planning in money; null for planning in minutes. */
export const saveCostsCall: Handler<'shop:save-costs'> = (program, { costs, revision }) =>
  saveSettingUnlessOvertaken(program, 'costs', costs, revision);

/** Light or dark, °C or °F, on every screen of the shop. */
export const saveDisplayCall: Handler<'shop:save-display'> = (program, { display, revision }) =>
  saveSettingUnlessOvertaken(program, 'display', display, revision);

export const savePrinterCall: Handler<'shop:save-printer'> = (program, input) => {
  const { meter, revision, ...given } = printerInputSchema.parse(input);
  refuseFault(faultOfPrinter(program.knowledge, given));
  return saveRecord(program, { what: 'printer', given, revision, list: listPrinters }, async (db, kept) => {
    const fault = await savePrinter(db, { ...given, ...kept }, program.now().toISOString(), meter);
    refuseFault(fault === null ? null : faults.ofPrinter({ label: given.label, why: fault }));
  });
};

export const saveSpoolCall: Handler<'shop:save-spool'> = (program, input) => {
  const { revision, ...given } = spoolInputSchema.parse(input);
  refuseFault(faultOfSpool(program.knowledge, given, program.now()));
  return saveRecord(program, { what: 'spool', given, revision, list: listSpools }, (db, kept) =>
    saveSpool(db, { ...given, ...kept }),
  );
};

export const savePersonCall: Handler<'shop:save-person'> = (program, input) => {
  const { revision, ...given } = personInputSchema.parse(input);
  const list = async (db: CasebookDb) =>
    (await listPeople(db)).map((person) => ({ ...person, label: person.initials }));
  const named = { ...given, label: given.initials };
  return saveRecord(program, { what: 'person', given: named, revision, list }, (db, kept) =>
    savePerson(db, { ...given, ...kept }),
  );
};

interface KeptRecord {
  readonly id: string;
  readonly revision: number;
  readonly label: string;
  readonly isRetired: boolean;
  readonly isDemo: boolean;
}

type RecordKind = 'printer' | 'spool' | 'person';

const WORDS = {
  printer: {
    gone: refusals.noPrinterWithId,
    changed: refusals.printerChanged,
    nameTaken: refusals.printerNameTaken,
  },
  person: {
    gone: refusals.noPersonWithId,
    changed: refusals.personChanged,
    nameTaken: refusals.personNameTaken,
  },
  spool: { gone: refusals.noSpoolWithId, changed: refusals.spoolChanged, nameTaken: refusals.spoolNameTaken },
};

interface RecordToSave {
  readonly what: RecordKind;
  readonly given: {
    readonly id?: string | undefined;
    readonly label: string;
    readonly isRetired: boolean;
  };
  readonly revision: number | undefined;
  readonly list: (db: CasebookDb) => Promise<readonly KeptRecord[]>;
}

/**
 * Adds a record or changes one that nobody else has changed meanwhile. Looked up and written in one go: two hands at once
 * cannot both take a name.
 */
async function saveRecord(
  program: ApplicationContext,
  { what, given, revision, list }: RecordToSave,
  write: (db: CasebookDb, kept: { readonly id: string; readonly isDemo: boolean }) => Promise<void>,
): Promise<Shop> {
  if (given.id !== undefined && revision === undefined)
    throw new DomainError('bad-request', refusals.needsRevision());
  let known: readonly KeptRecord[] = [];
  const appended = await appendUnlessOvertaken(program.casebook.db, {
    revision: given.id === undefined ? 0 : (revision ?? 0),
    standsAt: async (db) => {
      known = await list(db);
      return findExisting(known, given.id, what)?.revision ?? 0;
    },
    write: async (db) => {
      if (!given.isRetired) refuseDouble(known, given.id, given.label, what);
      const isDemo = findExisting(known, given.id, what)?.isDemo ?? false;
      await write(db, { id: given.id ?? program.newId(), isDemo });
    },
  });
  return appended === 'stale' ? refuseStale(program, WORDS[what].changed()) : readShop(program);
}

async function saveSettingUnlessOvertaken<N extends SettingName>(
  program: ApplicationContext,
  name: N,
  value: SettingValue<N>,
  revision: number,
): Promise<Shop> {
  const appended = await appendUnlessOvertaken(program.casebook.db, {
    revision,
    standsAt: (db) => settingRevision(db, name),
    write: (db) => saveSetting(db, name, value),
  });
  return appended === 'stale' ? refuseStale(program, refusals.settingsChanged()) : readShop(program);
}

function refuseFault(fault: Message | null): void {
  if (fault !== null) throw new DomainError('bad-request', fault);
}

function findExisting<T extends { readonly id: string }>(
  known: readonly T[],
  id: string | undefined,
  what: RecordKind,
): T | undefined {
  if (id === undefined) return undefined;
  const found = known.find((record) => record.id === id);
  if (!found) throw new DomainError('not-found', WORDS[what].gone());
  return found;
}

/** Outside the transaction: the casebook bears one at a time. */
async function refuseStale(program: ApplicationContext, said: Message): Promise<never> {
  throw new DomainError('stale', said, await readShop(program));
}

/** Two machines or spools of one name would be mixed up at the bench. */
function refuseDouble(
  known: readonly { readonly id: string; readonly label: string; readonly isRetired: boolean }[],
  id: string | undefined,
  label: string,
  what: RecordKind,
): void {
  const twin = known.find(
    (record) => record.id !== id && !record.isRetired && record.label.toLowerCase() === label.toLowerCase(),
  );
  if (twin) throw new DomainError('bad-request', WORDS[what].nameTaken({ label: twin.label }));
}
