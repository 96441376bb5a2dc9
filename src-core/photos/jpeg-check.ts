import { LARGEST_PHOTO_BYTES, LONGEST_SIDE_PX } from '../contract/photo-limits.ts';
import { faults } from '../words/en/faults.ts';
import type { Message } from '../words/message.ts';

export type JpegCheck =
  | { readonly ok: true; readonly widthPx: number; readonly heightPx: number }
  | { readonly ok: false; readonly fault: Message };

/** Start-of-frame markers of coded pictures; C4, C8 and CC in between are tables and an extension. */
const isFrame = (marker: number) => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
/** Markers that stand alone, without a length. */
const isBare = (marker: number) => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7);
const START_OF_SCAN = 0xda;
const NUMBER_OF_LINES = 0xdc;
const END = 0xd9;
/** Application segments in which cameras and editors write who, when and where. */
const TELLTALES: readonly number[] = [0xe1, 0xed];

/** A camera writes one, a picture that comes in steps a dozen; of thousands each is drawn over all of the picture. */
const MOST_SCANS = 64;

/**
 * Whether bytes are a photo that the casebook takes: a JPEG (ITU-T T.81) by its own markers, whatever it is called, with one
 * picture of a size in bounds, drawn in a few scans, whole to its end and with nothing behind it, and without the segments that
 * tell where and by whom it was taken.
 */
export function checkJpeg(bytes: Uint8Array): JpegCheck {
  const no = (fault: Message): JpegCheck => ({ ok: false, fault });
  if (bytes.length > LARGEST_PHOTO_BYTES) return no(faults.photoTooLarge());
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return no(faults.photoNoJpeg());
  if (bytes.at(-2) !== 0xff || bytes.at(-1) !== END) return no(faults.photoCutShort());
  let size: { readonly widthPx: number; readonly heightPx: number } | null = null;
  let scans = 0;
  let at = 2;
  while (at + 1 < bytes.length) {
    if (bytes[at] !== 0xff) return no(faults.photoDamaged());
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (isBare(marker)) {
      at += 2;
      continue;
    }
    if (marker === END) {
      if (!size || scans === 0) return no(faults.photoEmpty());
      return at + 2 === bytes.length ? { ok: true, ...size } : no(faults.photoTail());
    }
    if (TELLTALES.includes(marker)) return no(faults.photoTelltale());
    const length = at + 4 <= bytes.length ? word(bytes, at + 2) : 0;
    if (length < 2 || at + 2 + length > bytes.length) return no(faults.photoDamaged());
    if (isFrame(marker)) {
      if (size || length < 8) return no(faults.photoDamaged());
      size = { heightPx: word(bytes, at + 5), widthPx: word(bytes, at + 7) };
      if (Math.max(size.widthPx, size.heightPx) > LONGEST_SIDE_PX)
        return no(faults.photoTooWide({ px: LONGEST_SIDE_PX }));
    }
    // It says the height anew, after the first scan.
    if (marker === NUMBER_OF_LINES) return no(faults.photoDamaged());
    at += 2 + length;
    if (marker !== START_OF_SCAN) continue;
    if (!size || size.widthPx === 0 || size.heightPx === 0) return no(faults.photoNoSize());
    scans += 1;
    if (scans > MOST_SCANS) return no(faults.photoDrawnOver());
    at = endOfScan(bytes, at);
  }
  return no(faults.photoCutShort());
}

/** Where the coded data of a scan end: at a marker that is neither a byte put in after FF nor a restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  let at = bytes.indexOf(0xff, from);
  while (at >= 0 && at + 1 < bytes.length) {
    const next = bytes[at + 1] ?? 0;
    if (next !== 0 && !(next >= 0xd0 && next <= 0xd7)) return at;
    at = bytes.indexOf(0xff, at + 2);
  }
  return bytes.length;
}

function word(bytes: Uint8Array, at: number): number {
  return ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);
}
