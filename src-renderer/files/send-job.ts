import type { JobMachineInput, JobReport } from '../../src-core/contract/job-report.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';
import type { Reply } from '../../src-core/contract/reply.ts';

const PIECE_BYTES = 512 * 1024;
const HEAD_BYTES = 4096;

/** Whether the beginning of a file looks like a log of temperatures and not like a job. */
export function isTemperatureLog(head: string): boolean {
  if (/^\s*(?:;|G\d|M\d)/m.test(head)) return false;
  return /\b[TB]\d?:\s*-?\d+(?:\.\d+)?\s*\/\s*-?\d/.test(head) || /\b(?:actual|target)\b/i.test(head);
}

/** The first few kilobytes, for telling what a file is. */
export async function headOf(file: Blob): Promise<string> {
  return latin1(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
}

/**
 * Sends a job file to the host piece by piece; `onProgress` gets the share sent, 0 to 1. Null when `signal` ended it: then
 * the host has dropped it too.
 */
export async function sendJob(
  host: HostApi,
  file: Blob,
  machine: JobMachineInput,
  onProgress: (share: number) => void,
  signal: AbortSignal,
): Promise<Reply<JobReport> | null> {
  const begun = await host.call('job:begin', machine);
  if (!begun.ok) return begun;
  const { jobId } = begun.value;
  for (let at = 0; at < file.size; at += PIECE_BYTES) {
    const bytes = new Uint8Array(await file.slice(at, at + PIECE_BYTES).arrayBuffer());
    if (signal.aborted) break;
    const taken = await host.call('job:piece', { jobId, at, bytes });
    if (!taken.ok) return taken;
    onProgress(Math.min(1, taken.value.received / file.size));
  }
  if (signal.aborted) {
    await host.call('job:drop', { jobId });
    return null;
  }
  return host.call('job:end', { jobId });
}

/** One character a byte. */
function latin1(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 8192)
    text += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return text;
}
