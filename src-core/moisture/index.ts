/** Water in filament: how much a spool holds, how to get it out, how to keep it out, and what it does in the melt. */
export type { ClimateSpan } from './climate.ts';
export { desiccantUnits, desiccantUnitsDin, GRAM_PER_UNIT } from './dry-pack.ts';
export { dryingFigures, DRYING_WAIT } from './drying-words.ts';
export { dryingCurve, LONGEST_HOURS, planDrying, type Dryer, type DryingJob } from './drying-plan.ts';
export { absoluteHumidityKgPerM3, dewPointC, humidityWhenHeated, type Air } from './humid-air.ts';
export { lossOnDrying } from './loss-on-drying.ts';
export {
  equilibriumMassFraction,
  isothermPoints,
  materialWaterOf,
  type MaterialWater,
  type Range,
} from './material-water.ts';
export { leakThroughWallGPerDay, sealedOutlook, type SealedTub } from './sealed-storage.ts';
export {
  lifeOfSpool,
  undoneSpoolSeqs,
  waterOfMake,
  type LoggedSpoolEvent,
  type SpoolMake,
} from './spool-life.ts';
export { computeStorage } from './storage-report.ts';
export { computeSpool, type SpoolParts } from './spool-report.ts';
export { lastDriedAt, standingOf } from './spool-standing.ts';
export { verdictOn } from './spool-verdict.ts';
export { printingLimitAt, REFERENCE_FLOW_MM3_PER_S, steamFrom } from './steam.ts';
export { waterBand } from './water-band.ts';
export { waterAfter, type SpoolLife } from './water-history.ts';
export { looseStrand, ONE_KILOGRAM_SPOOL, woundSpool, type SpoolSize, type Winding } from './winding.ts';
export type { WaterStart } from './wound-water.ts';
