import type { Access, Me } from '../../../src-core/contract/access-view.ts';
import { auditTexts } from '../../../src-core/words/en/audit.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { listAuditEntries } from '../../casebook/audit.repository.ts';
import { listDevices, signOutEverywhere, updateDevice } from '../../casebook/device.repository.ts';
import { listPeople } from '../../casebook/person.repository.ts';
import { listPeopleWithPin, readPinHash, savePinHash } from '../../casebook/pin.repository.ts';
import { listPrinters } from '../../casebook/printer.repository.ts';
import { beginTry, pinDoors, wasRight } from '../access/attempt-gate.ts';
import { audit } from '../access/audit.ts';
import { waitInWords } from '../access/doorkeeper.ts';
import { makeJoinCode } from '../access/join-codes.ts';
import { isPin, pinHash } from '../access/pin-hash.ts';
import { visitorSaid, type Visitor } from '../access/visitor.ts';
import type { ApplicationContext } from '../application-context.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

const { m } = auditTexts;

/** Entries of the list that a screen shows. */
const SHOWN_ENTRIES = 200;

export const accessMe: Handler<'access:me'> = (program, _input, by) => meOf(program, by);

/** Who asks, as what, and who could sign in there. */
async function meOf({ casebook }: ApplicationContext, by: Visitor): Promise<Me> {
  if (by.kind === 'owner') return { kind: 'owner', label: null, role: null, person: null, people: [] };
  const { label, role, person } = by;
  return { kind: 'device', label, role, person, people: await listPeopleWithPin(casebook.db) };
}

/** Every try counts before it is looked at, at three doors: this person here, this device, this person anywhere. */
export const accessSignIn: Handler<'access:sign-in'> = async (program, { personId, pin }, by) => {
  if (by.kind === 'owner') throw new DomainError('refused', refusals.nobodySignsIn());
  const { db } = program.casebook;
  const doors = pinDoors(by.deviceId, personId);
  const waitMs = await beginTry(db, doors, program.now().getTime());
  if (waitMs > 0) throw new DomainError('refused', refusals.tooManyPins({ wait: waitInWords(waitMs) }));
  const person = (await listPeople(db)).find((one) => one.id === personId && !one.isRetired);
  const kept = person ? await readPinHash(db, personId) : null;
  if (!person || kept === null || !(await isPin(pin, kept))) {
    const initials = person?.initials ?? m.somebodyNotHere();
    await audit(program, m.device({ label: by.label }), m.wrongPin({ initials }));
    throw new DomainError('refused', refusals.wrongPin());
  }
  await wasRight(db, doors);
  await updateDevice(db, by.deviceId, {
    person_id: personId,
    person_active_at: program.now().toISOString(),
  });
  return meOf(program, {
    ...by,
    role: person.role,
    person: { id: person.id, initials: person.initials },
  });
};

export const accessSignOut: Handler<'access:sign-out'> = async (program, _input, by) => {
  if (by.kind === 'owner') return meOf(program, by);
  await updateDevice(program.casebook.db, by.deviceId, { person_id: null, person_active_at: null });
  const device = (await listDevices(program.casebook.db)).find(({ id }) => id === by.deviceId);
  return meOf(program, { ...by, person: null, role: device?.role ?? 'operator' });
};

export const accessList: Handler<'access:list'> = (program) => readAccess(program);

async function readAccess({ casebook: { db }, desk }: ApplicationContext): Promise<Access> {
  return {
    devices: await listDevices(db),
    withPin: (await listPeopleWithPin(db)).map(({ id }) => id),
    audit: await listAuditEntries(db, SHOWN_ENTRIES),
    addresses: [...desk.addresses],
  };
}

export const accessInvite: Handler<'access:invite'> = async (program, { label, role, printerId }) => {
  await refuseUnknownPrinter(program, printerId);
  await refuseDoubleName(program, label, null);
  const { code, expiresAtMs } = await makeJoinCode(
    program.casebook.db,
    { label, role, printerId },
    program.now().getTime(),
  );
  return {
    code,
    expiresAt: new Date(expiresAtMs).toISOString(),
    addresses: program.desk.addresses.map((address) => `${address}/join?code=${code}`),
  };
};

export const accessChangeDevice: Handler<'access:change-device'> = async (
  program,
  { deviceId, label, role, printerId },
) => {
  await refuseUnknownPrinter(program, printerId);
  await refuseDoubleName(program, label, deviceId);
  const isThere = await updateDevice(program.casebook.db, deviceId, { label, role, printer_id: printerId });
  if (!isThere) throw new DomainError('not-found', refusals.noSuchDevice());
  return readAccess(program);
};

export const accessRevokeDevice: Handler<'access:revoke-device'> = async (program, { deviceId }, by) => {
  const { db } = program.casebook;
  const device = (await listDevices(db)).find(({ id }) => id === deviceId);
  // Done twice it changes nothing more.
  if (device && (await updateDevice(db, deviceId, { revoked_at: program.now().toISOString() })))
    await audit(program, visitorSaid(by), m.shutOut({ label: device.label }));
  return readAccess(program);
};

export const accessSetPin: Handler<'access:set-pin'> = async (program, { personId, pin }, by) => {
  const { db } = program.casebook;
  const person = (await listPeople(db)).find(({ id }) => id === personId);
  if (!person) throw new DomainError('not-found', refusals.noSuchPerson());
  const hash = pin === null ? null : await pinHash(pin);
  await db.transaction().execute(async (trx) => {
    await savePinHash(trx, personId, hash);
    // Whoever had the PIN before has it no more.
    await signOutEverywhere(trx, personId);
  });
  const { initials } = person;
  await audit(program, visitorSaid(by), (pin === null ? m.pinTaken : m.pinGiven)({ initials }));
  return readAccess(program);
};

async function refuseUnknownPrinter(
  { casebook }: ApplicationContext,
  printerId: string | null,
): Promise<void> {
  if (printerId === null) return;
  const isThere = (await listPrinters(casebook.db)).some(
    ({ id, isRetired }) => id === printerId && !isRetired,
  );
  if (!isThere) throw new DomainError('not-found', refusals.noSuchPrinterAnyMore());
}

/** Two devices of one name would be mixed up when one is to be shut out. */
async function refuseDoubleName(
  { casebook }: ApplicationContext,
  label: string,
  deviceId: string | null,
): Promise<void> {
  const twin = (await listDevices(casebook.db)).find(
    (one) => one.id !== deviceId && one.label.toLowerCase() === label.toLowerCase(),
  );
  if (twin) throw new DomainError('bad-request', refusals.deviceNameTaken({ label: twin.label }));
}
