import type { DrillKind } from '../../contract/drill-kinds.ts';
import { drillTexts } from '../../words/en/drills.ts';
import type { Message } from '../../words/message.ts';

const { m } = drillTexts;

export const DRILL_TITLES: Readonly<Record<DrillKind, Message>> = {
  material: m.titleMaterial(),
  drying: m.titleDrying(),
  nozzle: m.titleNozzle(),
  storage: m.titleStorage(),
  stations: m.titleStations(),
  sheet: m.titleSheet(),
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
