/** The numbers that a flow sheet starts from, with unit and range: one table for schema, sums and form. */
export const FLOW_NUMBERS = {
  lineWidthMm: { what: 'line width', unit: 'mm', min: 0.05, max: 5 },
  layerHeightMm: { what: 'layer height', unit: 'mm', min: 0.02, max: 2 },
  speedMmPerS: { what: 'speed', unit: 'mm/s', min: 0.5, max: 1000 },
  filamentDiameterMm: { what: 'filament diameter', unit: 'mm', min: 1, max: 5 },
  nozzleMm: { what: 'nozzle size', unit: 'mm', min: 0.1, max: 2 },
  fillerPercent: { what: 'filler by weight', unit: '%', min: 0, max: 80 },
  particleLengthMm: { what: 'particle length', unit: 'mm', min: 0.001, max: 2 },
  nozzleC: { what: 'nozzle temperature', unit: '°C', min: 120, max: 520 },
} as const;
export type FlowNumber = keyof typeof FLOW_NUMBERS;
