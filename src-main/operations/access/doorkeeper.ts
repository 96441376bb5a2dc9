import { auditTexts } from '../../../src-core/words/en/audit.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import {
  insertDevice,
  readDevice,
  updateDevice,
  type KnownDevice,
} from '../../casebook/device.repository.ts';
import type { Change } from '../../../src-core/contract/change.ts';
import type { ApplicationContext } from '../application-context.ts';
import { beginTry, joiningDoors, wasRight } from './attempt-gate.ts';
import { audit, ROLES } from './audit.ts';
import { redeemJoinCode } from './join-codes.ts';
import type { Visitor } from './visitor.ts';

const { m } = auditTexts;

/** A person who writes nothing for this long is signed out: tablets lie about. */
const IDLE_MS = 30 * 60_000;
/** When a device was last seen is written no more often than this. */
const SEEN_EVERY_MS = 5 * 60_000;
const ACTIVE_EVERY_MS = 60_000;
/** A secret gets a successor after this. */
const ROTATED_EVERY_MS = 12 * 60 * 60_000;
/** Requests that were under way with the secret before are still let in. */
const GRACE_MS = 60_000;

export type Joined =
  | { readonly ok: true; readonly deviceId: string; readonly secret: string }
  | { readonly ok: false; readonly said: Message };

/** Knows devices by the secret in their cookie, lets new ones in by a code, and changes secrets. */
export class Doorkeeper {
  readonly #program: ApplicationContext;

  constructor(program: ApplicationContext) {
    this.#program = program;
  }

  /** Whether anybody can be known at all: devices are kept in the casebook. One that can be opened again is. */
  async isAtWork(): Promise<boolean> {
    const { casebook } = this.#program;
    if (!casebook.isOpen) await casebook.tryAgain();
    return casebook.isOpen;
  }

  /** The device that has this secret, or null. */
  async recognise(deviceId: string, secret: string): Promise<Extract<Visitor, { kind: 'device' }> | null> {
    const { casebook } = this.#program;
    if (!casebook.isOpen || !/^[0-9A-HJKMNP-TV-Z]{26}$/.test(deviceId)) return null;
    const known = await readDevice(casebook.db, deviceId);
    if (!known) return null;
    const { row } = known;
    const nowMs = this.#program.now().getTime();
    const given = hashOf(secret);
    const isNewest = isSame(given, row.secret_hash);
    if (!isNewest && !(row.previous_hash !== null && isSame(given, row.previous_hash))) return null;
    const seenMs = row.seen_at === null ? 0 : Date.parse(row.seen_at);
    const changed = {
      // The device has the new secret: the old one, which may lie about somewhere, is worth nothing any more.
      ...(isNewest &&
        row.previous_hash !== null &&
        nowMs - Date.parse(row.rotated_at) > GRACE_MS && { previous_hash: null }),
      ...(Math.abs(nowMs - seenMs) > SEEN_EVERY_MS && { seen_at: this.#program.now().toISOString() }),
    };
    if (Object.keys(changed).length > 0) await updateDevice(casebook.db, deviceId, changed);
    return this.#visitorOf(known);
  }

  /** Whether nobody can be known just now because of this error: the database went away while it was asked. */
  isAway(error: unknown): boolean {
    return this.#program.casebook.troubleOf(error) !== null;
  }

  /** Whether a device that was let in before still is. */
  async isLetIn(deviceId: string): Promise<boolean> {
    const { casebook } = this.#program;
    return casebook.isOpen && (await readDevice(casebook.db, deviceId)) !== null;
  }

  /** A new secret for a device whose own is old, or, `isForced`, because what it may do has changed; null for none. */
  async rotate(deviceId: string, isForced: boolean): Promise<string | null> {
    const { casebook } = this.#program;
    const known = await readDevice(casebook.db, deviceId);
    if (!known) return null;
    const now = this.#program.now();
    const isDue = now.getTime() - Date.parse(known.row.rotated_at) > ROTATED_EVERY_MS;
    // While the newest has not come back the device may not have it: another one would shut it out.
    if (!isForced && (!isDue || known.row.previous_hash !== null)) return null;
    const secret = newSecret();
    await updateDevice(casebook.db, deviceId, {
      secret_hash: hashOf(secret),
      previous_hash: known.row.secret_hash,
      rotated_at: now.toISOString(),
    });
    return secret;
  }

  /** Lets a device in by a code; `from` is the address it comes from, for slowing guesses. */
  async join(code: string, from: string): Promise<Joined> {
    const { casebook } = this.#program;
    if (!casebook.isOpen) return { ok: false, said: refusals.casebookShut() };
    const now = this.#program.now();
    const doors = joiningDoors(from);
    const waitMs = await beginTry(casebook.db, doors, now.getTime());
    if (waitMs > 0) return { ok: false, said: refusals.tooManyCodes({ wait: waitInWords(waitMs) }) };
    const secret = newSecret();
    const deviceId = this.#program.newId();
    const joined: Change = { topics: ['access'], caseId: null, revision: null };
    // Together: a code is used up with the device that it lets in, or not at all.
    const invited = await casebook.telling(joined, () =>
      casebook.db.transaction().execute(async (trx) => {
        const found = await redeemJoinCode(trx, code, now.getTime());
        if (!found) return null;
        await insertDevice(trx, {
          id: deviceId,
          label: found.label,
          role: found.role,
          printer_id: found.printerId,
          secret_hash: hashOf(secret),
          joined_at: now.toISOString(),
        });
        return found;
      }),
    );
    if (!invited) return { ok: false, said: refusals.wrongCode() };
    await wasRight(casebook.db, doors);
    const { label, role } = invited;
    await audit(this.#program, m.device({ label }), m.joined({ roles: ROLES[role] }));
    this.#program.changes.raise(joined);
    return { ok: true, deviceId, secret };
  }

  /** Somebody signed in wrote something: the time without writing begins anew. */
  async touchPerson(visitor: Visitor): Promise<void> {
    if (visitor.kind !== 'device' || !visitor.person) return;
    const known = await readDevice(this.#program.casebook.db, visitor.deviceId);
    const activeMs = Date.parse(known?.row.person_active_at ?? '');
    const now = this.#program.now();
    if (now.getTime() - activeMs > ACTIVE_EVERY_MS)
      await updateDevice(this.#program.casebook.db, visitor.deviceId, {
        person_active_at: now.toISOString(),
      });
  }

  #visitorOf({ row, role, person }: KnownDevice): Extract<Visitor, { kind: 'device' }> {
    const idleMs = this.#program.now().getTime() - Date.parse(row.person_active_at ?? '');
    const signedIn = person !== null && idleMs <= IDLE_MS ? person : null;
    return {
      kind: 'device',
      deviceId: row.id,
      label: row.label,
      role: signedIn?.role ?? role,
      printerId: row.printer_id,
      person: signedIn && { id: signedIn.id, initials: signedIn.initials },
    };
  }
}

/** "40 seconds", "3 minutes". */
export function waitInWords(waitMs: number): Message {
  const seconds = Math.ceil(waitMs / 1000);
  if (seconds < 90) return refusals.seconds({ count: seconds });
  return refusals.minutes({ count: Math.ceil(seconds / 60) });
}

function newSecret(): string {
  return randomBytes(32).toString('base64url');
}

function hashOf(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}

function isSame(a: string, b: string): boolean {
  return a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));
}
