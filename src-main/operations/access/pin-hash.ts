import { randomBytes, scrypt, timingSafeEqual, type ScryptOptions } from 'node:crypto';

/** scrypt (RFC 7914) with N = 2^15, r = 8, p = 1: 32 MB and about a tenth of a second a guess. */
const COST_LOG2 = 15;
const KEY_BYTES = 32;
const SALT_BYTES = 16;

/** A PIN as it is kept: "scrypt$15$salt$key", so that the cost can grow without losing older ones. */
export async function pinHash(pin: string): Promise<string> {
  const salt = randomBytes(SALT_BYTES);
  const key = await keyOf(pin, salt, COST_LOG2);
  return `scrypt$${COST_LOG2}$${salt.toString('base64url')}$${key.toString('base64url')}`;
}

/** Whether a PIN is the one that was kept; false for what is not readable. */
export async function isPin(pin: string, kept: string): Promise<boolean> {
  const [method, cost, salt, key] = kept.split('$');
  const costLog2 = Number(cost);
  if (method !== 'scrypt' || !salt || !key || !(costLog2 >= 14 && costLog2 <= 20)) return false;
  const expected = Buffer.from(key, 'base64url');
  const given = await keyOf(pin, Buffer.from(salt, 'base64url'), costLog2);
  return given.length === expected.length && timingSafeEqual(given, expected);
}

function keyOf(pin: string, salt: Buffer, costLog2: number): Promise<Buffer> {
  const cost = 2 ** costLog2;
  const options: ScryptOptions = { N: cost, r: 8, p: 1, maxmem: 2 * 128 * 8 * cost };
  return new Promise((resolve, reject) => {
    scrypt(pin, salt, KEY_BYTES, options, (error, key) => (error ? reject(error) : resolve(key)));
  });
}
