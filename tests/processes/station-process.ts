import { onTestFinished } from 'vitest';
import { ended } from './ended.ts';
import { launchStation, type StationProcess } from './launch-station.ts';

export type { StationProcess } from './launch-station.ts';

/** The station for one test: also when the test fails half-way, no process outlives it. */
export function startStationProcess(casebookFile: string): Promise<StationProcess> {
  return launchStation(casebookFile, (child) => onTestFinished(() => ended(child, 'SIGKILL')));
}
