import { createHash, randomInt } from 'node:crypto';
import { ROLES, type Role } from '../../../src-core/contract/roles.ts';
import type { CasebookDb } from '../../casebook/casebook.ts';
import { forgetJoinCodes, keepJoinCode, takeJoinCode } from '../../casebook/join-code.repository.ts';

/** Crockford's base 32: nothing in it is taken for something else when it is read aloud or typed. */
const SIGNS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const LENGTH = 8;
const VALID_MS = 10 * 60_000;
const MOST_CODES = 50;

export interface Invited {
  readonly label: string;
  readonly role: Role;
  readonly printerId: string | null;
}

/** A new code, "7KQ2-M4XD", that lets one device in, once and within ten minutes, at any station of this casebook. */
export async function makeJoinCode(
  db: CasebookDb,
  { label, role, printerId }: Invited,
  nowMs: number,
): Promise<{ readonly code: string; readonly expiresAtMs: number }> {
  const signs = Array.from({ length: LENGTH }, () => SIGNS[randomInt(SIGNS.length)]).join('');
  const expiresAtMs = nowMs + VALID_MS;
  const row = {
    code_hash: hashOf(signs),
    label,
    role,
    printer_id: printerId,
    expires_at: new Date(expiresAtMs).toISOString(),
  };
  await db.transaction().execute(async (trx) => {
    await forgetJoinCodes(trx, new Date(nowMs).toISOString());
    await keepJoinCode(trx, row, MOST_CODES);
  });
  return { code: `${signs.slice(0, 4)}-${signs.slice(4)}`, expiresAtMs };
}

/** What a code lets in as; null where it is wrong, too old or used. It is used with this. */
export async function redeemJoinCode(db: CasebookDb, code: string, nowMs: number): Promise<Invited | null> {
  const row = await takeJoinCode(db, hashOf(asMeant(code)));
  if (!row || Date.parse(row.expires_at) <= nowMs) return null;
  // What is not known to this version gets the least rights.
  const role = ROLES.find((one) => one === row.role) ?? 'operator';
  return { label: row.label, role, printerId: row.printer_id };
}

/** As it was made, however it was typed: small letters, spaces, O for 0, I or L for 1. */
function asMeant(code: string): string {
  return code
    .slice(0, 40)
    .toUpperCase()
    .replace(/[^0-9A-Z]/g, '')
    .replaceAll('O', '0')
    .replace(/[IL]/g, '1');
}

/** Kept and looked up by their hashes: neither the casebook nor the time of a look-up tells a code. */
function hashOf(signs: string): string {
  return createHash('sha256').update(signs).digest('hex');
}
