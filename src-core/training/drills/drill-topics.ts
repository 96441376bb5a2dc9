import type { DrillKind } from '../../contract/drill-kinds.ts';

/** The topic that each drill says something of. */
export const DRILL_TOPICS: Readonly<Record<DrillKind, string>> = {
  material: 'materials-choice',
  drying: 'moisture',
  nozzle: 'filled-materials',
  storage: 'storage',
  stations: 'moisture',
  sheet: 'materials-choice',
};
