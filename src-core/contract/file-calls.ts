import { LARGEST_PHOTO_BYTES } from './photo-limits.ts';

/** Largest piece of a job file, byte. */
export const LARGEST_PIECE_BYTES = 2_000_000;

/**
 * Calls with a file in them, under `bytes` of their input. Over HTTP these bytes are the body, as they are, and the rest of the
 * input stands in the address: nothing is blown up into text, and nothing is read that is larger or of another type.
 */
export const fileCalls = {
  'photo:keep': { type: 'image/jpeg', largestBytes: LARGEST_PHOTO_BYTES },
  'job:piece': { type: 'application/octet-stream', largestBytes: LARGEST_PIECE_BYTES },
} as const;

export type FileCallName = keyof typeof fileCalls;

export function isFileCall(name: string): name is FileCallName {
  return Object.hasOwn(fileCalls, name);
}

/** Where a station takes such a call, below the page's own address; `input` is what goes beside the bytes. */
export function fileCallAddress(name: FileCallName, input: unknown): string {
  return `files/${name}?${new URLSearchParams({ input: JSON.stringify(input) })}`;
}
