import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { JobReader, type JobMachine } from '../../src-core/flow/index.ts';

const PIECE_BYTES = 1 << 20;

/**
 * Reads a job file from disk piece by piece, so that its size does not matter. `onProgress` gets the share read, 0 to 1.
 * Throws a `JobFileError` for what is no job, the system's error for what cannot be read, and an AbortError when `signal` ends
 * it.
 */
export async function readJobFile(
  file: string,
  machine: JobMachine,
  options: { readonly onProgress?: (share: number) => void; readonly signal?: AbortSignal } = {},
): Promise<ReturnType<JobReader['end']>> {
  const { size } = await stat(file);
  const reader = new JobReader(machine);
  let read = 0;
  const pieces = createReadStream(file, {
    highWaterMark: PIECE_BYTES,
    ...(options.signal && { signal: options.signal }),
  });
  for await (const piece of pieces as AsyncIterable<Buffer>) {
    reader.push(piece);
    read += piece.length;
    options.onProgress?.(size > 0 ? read / size : 1);
  }
  return reader.end();
}
