import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/** The first 16 hex digits of the SHA-256 (FIPS 180-4) of the texts, each ended by a zero byte. Tells contents apart. */
export function contentHash(texts: readonly string[]): string {
  const hash = sha256.create();
  for (const text of texts) hash.update(utf8ToBytes(`${text}\u0000`));
  return bytesToHex(hash.digest()).slice(0, 16);
}
