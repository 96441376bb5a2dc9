import { LARGEST_PHOTO_BYTES, LONGEST_SIDE_PX } from '../contract/photo-limits.ts';

export type JpegCheck =
  | { readonly ok: true; readonly widthPx: number; readonly heightPx: number }
  | { readonly ok: false; readonly fault: string };

/** Start-of-frame markers of coded pictures; C4, C8 and CC in between are tables and an extension. */
const isFrame = (marker: number) => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
/** Markers that stand alone, without a length. */
const isBare = (marker: number) => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7);
const START_OF_SCAN = 0xda;
/** Application segments in which cameras and editors write who, when and where. */
const TELLTALES: readonly number[] = [0xe1, 0xed];

/**
 * Whether bytes are a photo that the casebook takes: a JPEG (ITU-T T.81) by its own markers, whatever it is called, with a
 * picture size in bounds, whole to its end, and without the segments that tell where and by whom it was taken.
 */
export function checkJpeg(bytes: Uint8Array): JpegCheck {
  const no = (fault: string): JpegCheck => ({ ok: false, fault });
  if (bytes.length > LARGEST_PHOTO_BYTES) return no('the photo is larger than 1.5 MB');
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return no('this is no JPEG picture');
  if (bytes.at(-2) !== 0xff || bytes.at(-1) !== 0xd9) return no('the picture is cut short');
  let size: { readonly widthPx: number; readonly heightPx: number } | null = null;
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return no('the picture is damaged');
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (isBare(marker)) {
      at += 2;
      continue;
    }
    if (TELLTALES.includes(marker))
      return no('the picture says where and when it was taken; send it without that');
    const length = word(bytes, at + 2);
    if (length < 2 || at + 2 + length > bytes.length) return no('the picture is damaged');
    if (isFrame(marker)) {
      if (length < 8) return no('the picture is damaged');
      size = { heightPx: word(bytes, at + 5), widthPx: word(bytes, at + 7) };
    }
    if (marker === START_OF_SCAN) {
      if (!size || size.widthPx === 0 || size.heightPx === 0) return no('the picture has no size');
      return Math.max(size.widthPx, size.heightPx) > LONGEST_SIDE_PX
        ? no(`the picture is more than ${LONGEST_SIDE_PX} px wide or high`)
        : { ok: true, ...size };
    }
    at += 2 + length;
  }
  return no('there is no picture in it');
}

function word(bytes: Uint8Array, at: number): number {
  return ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);
}
