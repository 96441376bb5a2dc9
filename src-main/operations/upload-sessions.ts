import { JobReader } from '../../src-core/flow/index.ts';
import { refusals } from '../../src-core/words/en/refusals.ts';
import { DomainError } from './domain-error.ts';

interface OpenJob {
  readonly machine: { readonly filamentDiameterMm: number };
  readonly reader: JobReader;
  received: number;
  touchedMs: number;
}

/** More at once are refused: each holds a reader, and nobody drops five files. */
const MOST_JOBS = 4;
/** A job that got no piece for this long was left behind. */
const LEFT_MS = 60_000;

/** Job files under way from the screens. Nothing of them is kept once they are read or left. */
export class UploadSessions<M extends { readonly filamentDiameterMm: number }> {
  private readonly jobs = new Map<string, OpenJob & { readonly machine: M }>();

  begin(jobId: string, machine: M, nowMs: number): void {
    for (const [id, { touchedMs }] of this.jobs) if (nowMs - touchedMs > LEFT_MS) this.jobs.delete(id);
    if (this.jobs.size >= MOST_JOBS) throw new DomainError('refused', refusals.mostJobs({ most: MOST_JOBS }));
    this.jobs.set(jobId, { machine, reader: new JobReader(machine), received: 0, touchedMs: nowMs });
  }

  /** Bytes received so far, this piece included. */
  take(jobId: string, at: number, piece: Uint8Array, nowMs: number): number {
    const job = this.need(jobId);
    if (at !== job.received)
      throw new DomainError('refused', refusals.pieceOutOfOrder({ at, received: job.received }));
    job.reader.push(piece);
    job.received += piece.length;
    job.touchedMs = nowMs;
    return job.received;
  }

  end(jobId: string): { machine: M; figures: ReturnType<JobReader['end']> } {
    const { machine, reader } = this.need(jobId);
    this.jobs.delete(jobId);
    return { machine, figures: reader.end() };
  }

  drop(jobId: string): void {
    this.jobs.delete(jobId);
  }

  private need(jobId: string): OpenJob & { readonly machine: M } {
    const job = this.jobs.get(jobId);
    if (!job) throw new DomainError('not-found', refusals.jobGone());
    return job;
  }
}
