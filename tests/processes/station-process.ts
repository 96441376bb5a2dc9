import { onTestFinished } from 'vitest';
import { ended } from './ended.ts';
import { launchStation, type StationProcess } from './launch-station.ts';

export type { StationProcess } from './launch-station.ts';

/** The station for one test: also when the test fails half-way, no process outlives it. */
export function startStationProcess(casebookFile: string, port: number | null = 0): Promise<StationProcess> {
  return launchStation(casebookFile, (child) => onTestFinished(() => ended(child, 'SIGKILL')), port);
}
