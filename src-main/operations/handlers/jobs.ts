import { JobFileError, reportOnJob } from '../../../src-core/flow/index.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

export const jobBegin: Handler<'job:begin'> = (program, machine) => {
  const jobId = program.newId();
  program.jobs.begin(jobId, machine, program.now().getTime());
  return { jobId };
};

export const jobPiece: Handler<'job:piece'> = (program, { jobId, at, bytes }) =>
  inFileWords(
    () => {
      const piece = typeof bytes === 'string' ? Buffer.from(bytes, 'latin1') : bytes;
      return { received: program.jobs.take(jobId, at, piece, program.now().getTime()) };
    },
    () => program.jobs.drop(jobId),
  );

export const jobEnd: Handler<'job:end'> = (program, { jobId }) =>
  inFileWords(() => {
    const { machine, figures } = program.jobs.end(jobId);
    return reportOnJob(program.knowledge, figures, machine);
  });

export const jobDrop: Handler<'job:drop'> = (program, { jobId }) => {
  program.jobs.drop(jobId);
  return {};
};

export const logRead: Handler<'log:read'> = async ({ reasoner }, { text }) => {
  const read = await reasoner.run('temperature-log', text);
  if ('fault' in read) throw new DomainError('bad-request', read.fault);
  return read.report;
};

/** What is wrong with a file is the caller's to mend, not a fault of the program. */
function inFileWords<T>(work: () => T, onFault: () => void = () => undefined): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof JobFileError)) throw error;
    onFault();
    throw new DomainError('bad-request', error.said);
  }
}
