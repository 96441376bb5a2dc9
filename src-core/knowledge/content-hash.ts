/**
 * Two 32-bit FNV-1a hashes (RFC 9923) of the texts, as 16 hex digits. Tells contents apart; protects nothing.
 */
export function contentHash(texts: readonly string[]): string {
  let low = 0x811c9dc5;
  let high = 0x050c5d1f;
  for (const text of texts) {
    for (const byte of new TextEncoder().encode(`${text}\u0000`)) {
      low = Math.imul(low ^ byte, 0x01000193);
      high = Math.imul(high ^ (byte + 1), 0x01000193);
    }
  }
  return [high, low].map((half) => (half >>> 0).toString(16).padStart(8, '0')).join('');
}
