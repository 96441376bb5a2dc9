import { VAPOUR_GAS_CONSTANT, ZERO_CELSIUS_K } from './humid-air.ts';
import type { MaterialWater, Range } from './material-water.ts';

const ATMOSPHERE_PA = 101_325;

/** Flow that the printing limits of the guide are given at: a 0.4 mm nozzle in everyday use. */
export const REFERENCE_FLOW_MM3_PER_S = 5;

/**
 * How the limit falls with flow: limit ∝ flow^-0.75. Estimate.
 *
 * At one speed of travel the bead's cross-section, and with it the time for which it stays molten, grows with flow. Bubbles
 * grow by diffusion of water to them: their volume goes with (content × time)^1.5 while growth is slow and with
 * content³ × time^1.5 once it is fast (Scriven L. E., Chem. Eng. Sci. 10 (1959) 1-13, from memory). For the same bubbles the
 * content may thus be 1/flow, or 1/√flow; the exponent is taken between the two.
 */
const FLOW_EXPONENT = 0.75;

/** Steam from wet melt. */
export interface Steam {
  /** Volume of vapour at 1 atm for one volume of melt, if all the water came off. */
  readonly vapourPerMelt: number;
  /** Share of vapour in the whole: 0 is solid, 0.5 is half foam. */
  readonly voidFraction: number;
  /** Seconds that the melt spends in the hot end, where the pressure keeps the water dissolved. */
  readonly residenceSeconds: number;
  readonly cautions: readonly string[];
}

/**
 * The most steam that melt can give: an upper bound, as under pressure and in solution much less comes off.
 *
 * Content is a mass fraction (0 to less than 1), temperature in °C (100 to 500), melt density in kg/m³, the melt zone in mm³
 * (about 48 for 20 mm of 1.75 mm bore), flow in mm³/s. Ideal gas at 1 atm, up to 0.5 % more than steam tables from 200 °C
 * up (IAPWS R7-97, region 2). Throws a RangeError on numbers outside.
 */
export function steamFrom(melt: {
  readonly massFraction: number;
  readonly nozzleTemperatureC: number;
  readonly meltDensityKgPerM3: number;
  readonly meltZoneMm3: number;
  readonly flowMm3PerS: number;
}): Steam {
  const { massFraction, nozzleTemperatureC, meltDensityKgPerM3, meltZoneMm3, flowMm3PerS } = melt;
  if (!(massFraction >= 0 && massFraction < 1)) {
    throw new RangeError(
      `water content is a mass fraction from 0 to less than 1 (0.5 % is 0.005), not ${massFraction}`,
    );
  }
  if (!(nozzleTemperatureC >= 100 && nozzleTemperatureC <= 500)) {
    throw new RangeError(`nozzle temperature runs from 100 to 500 °C, not ${nozzleTemperatureC} °C`);
  }
  if (!(meltDensityKgPerM3 > 0)) {
    throw new RangeError(`melt density is a number of kg/m³ above 0, not ${meltDensityKgPerM3}`);
  }
  if (!(meltZoneMm3 > 0)) throw new RangeError(`melt zone is a number of mm³ above 0, not ${meltZoneMm3}`);
  const volumePerKg = (VAPOUR_GAS_CONSTANT * (nozzleTemperatureC + ZERO_CELSIUS_K)) / ATMOSPHERE_PA;
  const vapourPerMelt = massFraction * meltDensityKgPerM3 * volumePerKg;
  return {
    vapourPerMelt,
    voidFraction: vapourPerMelt / (1 + vapourPerMelt),
    residenceSeconds: meltZoneMm3 / requireFlow(flowMm3PerS),
    cautions: ['wet-melt-spits'],
  };
}

/** Content above which steam troubles a print at this flow, mm³/s (0.1 to 200). See `FLOW_EXPONENT`. */
export function printingLimitAt(water: MaterialWater, flowMm3PerS: number): Range {
  const factor = (REFERENCE_FLOW_MM3_PER_S / requireFlow(flowMm3PerS)) ** FLOW_EXPONENT;
  const { low, likely, high } = water.printingLimit;
  return { low: low * factor, likely: likely * factor, high: high * factor };
}

function requireFlow(flowMm3PerS: number): number {
  if (!(flowMm3PerS >= 0.1 && flowMm3PerS <= 200)) {
    throw new RangeError(`flow runs from 0.1 to 200 mm³/s, not ${flowMm3PerS}`);
  }
  return flowMm3PerS;
}
