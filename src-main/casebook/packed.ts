import { deflateRawSync, inflateRawSync } from 'node:zlib';

/** A value as compressed JSON in base64: text, as every column is, for any database. */
export function pack(value: unknown): string {
  return deflateRawSync(JSON.stringify(value)).toString('base64');
}

/** What was packed; undefined where the text is damaged. What is kept packed can be worked out again or is asked for by name. */
export function unpack(packed: string): unknown {
  try {
    return JSON.parse(inflateRawSync(Buffer.from(packed, 'base64')).toString('utf8'));
  } catch {
    return undefined;
  }
}
