import type { DrillKind } from '../../contract/drill-kinds.ts';

export const DRILL_TITLES: Readonly<Record<DrillKind, string>> = {
  material: 'Choose the material and defend it',
  drying: 'Plan the drying for a deadline',
  nozzle: 'Which nozzle for this filler?',
  storage: 'Build the storage',
  stations: 'Put the stations of the day in order',
  sheet: 'Read the material sheet',
};

/** The topic that each says something of. */
export const DRILL_TOPICS: Readonly<Record<DrillKind, string>> = {
  material: 'materials-choice',
  drying: 'moisture',
  nozzle: 'filled-materials',
  storage: 'storage',
  stations: 'moisture',
  sheet: 'materials-choice',
};
