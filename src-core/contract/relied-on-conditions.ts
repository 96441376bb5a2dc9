/**
 * Conditions of the guide that code knows by name, in one place: `knowledge check` fails when the guide has one of them no
 * more. Whatever else a guide asks goes through the program without being known.
 */
export const CONDITION = {
  polymer: 'polymer',
  filler: 'filler',
  fillerPercent: 'filler-percent',
  nozzleMm: 'nozzle-mm',
  nozzleMaterial: 'nozzle-material',
  abrasiveHours: 'abrasive-hours',
  storage: 'storage',
  spoolWater: 'spool-water',
  roomHumidity: 'room-humidity',
  peakFlow: 'peak-flow',
  nozzleTemperature: 'nozzle-temperature',
  plateTemperature: 'plate-temperature',
  chamberTemperature: 'chamber-temperature',
  partFan: 'part-fan',
  feedPath: 'feed-path',
  hotEnd: 'hot-end',
  frame: 'frame',
  enclosure: 'enclosure',
  plateSurface: 'plate-surface',
  maintenanceDays: 'maintenance-days',
  printerHours: 'printer-hours',
  partUse: 'part-use',
  lastChange: 'last-change',
  fitHeat: 'fit-heat',
  fitLoad: 'fit-load',
  fitImpact: 'fit-impact',
  fitLight: 'fit-light',
  fitChemicals: 'fit-chemicals',
  fitWear: 'fit-wear',
} as const;

export type ReliedOnCondition = (typeof CONDITION)[keyof typeof CONDITION];
