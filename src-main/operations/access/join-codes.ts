import { createHash, randomInt } from 'node:crypto';
import type { Role } from '../../../src-core/contract/roles.ts';

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

/** Codes that let one device in, each once and within ten minutes. They end with the process: none outlives a restart. */
export class JoinCodes {
  readonly #waiting = new Map<string, Invited & { readonly expiresAtMs: number }>();

  /** A new code, "7KQ2-M4XD". */
  make(invited: Invited, nowMs: number): { readonly code: string; readonly expiresAtMs: number } {
    this.#forgetOld(nowMs);
    if (this.#waiting.size >= MOST_CODES)
      for (const oldest of this.#waiting.keys()) {
        this.#waiting.delete(oldest);
        break;
      }
    const signs = Array.from({ length: LENGTH }, () => SIGNS[randomInt(SIGNS.length)]).join('');
    const expiresAtMs = nowMs + VALID_MS;
    this.#waiting.set(hashOf(signs), { ...invited, expiresAtMs });
    return { code: `${signs.slice(0, 4)}-${signs.slice(4)}`, expiresAtMs };
  }

  /** What a code lets in as; null where it is wrong, too old or used. It is used with this. */
  redeem(code: string, nowMs: number): Invited | null {
    this.#forgetOld(nowMs);
    const hash = hashOf(asMeant(code));
    const invited = this.#waiting.get(hash);
    this.#waiting.delete(hash);
    return invited ?? null;
  }

  #forgetOld(nowMs: number): void {
    for (const [hash, { expiresAtMs }] of this.#waiting) if (expiresAtMs <= nowMs) this.#waiting.delete(hash);
  }
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

/** Looked up by their hashes, so that the time of a look-up tells nothing of a code. */
function hashOf(signs: string): string {
  return createHash('sha256').update(signs).digest('hex');
}
