import type { DrillKind } from '../contract/drill-kinds.ts';
import { drillTexts } from './en/drills.ts';
import type { Message } from './message.ts';

const { m } = drillTexts;

/** What each drill is called; a kept result names its kind only. */
export const DRILL_TITLES: Readonly<Record<DrillKind, Message>> = {
  material: m.titleMaterial(),
  drying: m.titleDrying(),
  nozzle: m.titleNozzle(),
  storage: m.titleStorage(),
  stations: m.titleStations(),
  sheet: m.titleSheet(),
};
