import { closeSync, existsSync, openSync, readSync, statSync } from 'node:fs';
import type Database from 'better-sqlite3';

const HEADER_BYTES = 32;
const FRAME_HEADER_BYTES = 24;
const MAGIC = 0x377f0682;

/**
 * How many frames of a write-ahead log the last whole transaction in it ends with, by its own marks and without looking
 * whether its contents are sound; 0 where there is no log, null where it does not even begin like one. Read before SQLite
 * sees the log: it passes over what is unsound without a word.
 */
export function framesPromised(file: string): number | null {
  const log = `${file}-wal`;
  if (!existsSync(log) || statSync(log).size <= HEADER_BYTES) return 0;
  const handle = openSync(log, 'r');
  try {
    const header = bytesAt(handle, 0, HEADER_BYTES);
    // The lowest bit says how its sums are formed.
    if ((header.readUInt32BE(0) & ~1) >>> 0 !== MAGIC) return null;
    const frameBytes = FRAME_HEADER_BYTES + header.readUInt32BE(8);
    const salts = header.subarray(16, 24);
    let promised = 0;
    for (let frame = 1; ; frame++) {
      const at = HEADER_BYTES + (frame - 1) * frameBytes;
      const mark = bytesAt(handle, at, FRAME_HEADER_BYTES);
      // Frames of another salt are left over from before the log began anew.
      if (mark.length < FRAME_HEADER_BYTES || !mark.subarray(8, 16).equals(salts)) return promised;
      if (mark.readUInt32BE(4) !== 0) promised = frame;
    }
  } finally {
    closeSync(handle);
  }
}

/** Whether SQLite took in less of the log than it promised: what was entered last before the end may be missing. */
export function isLogCutShort(database: Database.Database, promised: number | null): boolean {
  if (promised === 0) return false;
  if (promised === null) return true;
  const [state] = database.pragma('wal_checkpoint(PASSIVE)') as { readonly log: number }[];
  return (state?.log ?? 0) < promised;
}

function bytesAt(handle: number, at: number, length: number): Buffer {
  const bytes = Buffer.alloc(length);
  return bytes.subarray(0, readSync(handle, bytes, 0, length, at));
}
