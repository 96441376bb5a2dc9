/** Melt flow and job files: what a job asks of the hot end, and what a temperature log shows. */
export { reportOnFlow } from './flow-report.ts';
export { JobFileError } from './job-figures.ts';
export type { JobMachine } from './job-readings.ts';
export { JobReader } from './job-reader.ts';
export { reportOnJob } from './job-report.ts';
export { TemperatureLogError } from './temperature-log.ts';
export { reportOnTemperatures } from './temperature-report.ts';
