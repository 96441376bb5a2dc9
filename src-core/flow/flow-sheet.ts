import { FLOW_NUMBERS, type FlowNumber } from '../contract/flow-numbers.ts';
import type { FlowQuestion, FlowSheet } from '../contract/flow-sheet.ts';
import { beadAreaMm2, feedMmPerS } from './bead.ts';
import {
  ACCEPTED_BRIDGING_RISK,
  bridgingRisk,
  COMMON_BORES_MM,
  heatingSeconds,
  MELT_ZONE_LENGTH_MM,
  meltCapacityMm3PerS,
  pressureRatioOfBore,
  residenceSeconds,
  smallestBoreMm,
  viscosityRatio,
} from './melt.ts';

/** Flow activation energy of melts, kJ/mol, lowest and highest. Rheology handbooks, from memory. */
const ACTIVATION_KJ_PER_MOL: ReadonlyMap<string, readonly [number, number]> = new Map([
  ['pla', [80, 110]],
  ['abs', [90, 120]],
  ['pc', [105, 120]],
  ['pa6', [50, 65]],
  ['pp', [38, 46]],
  ['petg', [75, 100]],
]);
const HOTTER_BY_C = 10;

/** Thermal diffusivity of polymers, m²/s: slowest, usual, fastest. From memory. */
const DIFFUSIVITY = { slow: 0.8e-7, usual: 1e-7, fast: 1.3e-7 } as const;
/** Share of the way to the wall's temperature that is counted as heated through. */
const HEATED_SHARE = 0.9;

/**
 * What one line asks of feed, hot end and nozzle: everything in the sheet but the cautions.
 *
 * `densityKgPerM3` is the polymer's; null where not known. Fields and ranges: `FLOW_NUMBERS`. Throws a `RangeError` that names
 * the field for a number out of range, and for a line narrower than its layer is high.
 *
 * - Bead: half-round ends, π h²/4 + h (w - h); plain: w h. Flow is area times speed (geometry; `beadAreaMm2`).
 * - Feed: flow over the filament's cross-section. Grams are left out for filled filament, whose density is not known here.
 * - Residence: plug flow through a melt zone of the class's length. Heating: conduction into a cylinder (Crank 1975, eq. 5.23)
 *   with a diffusivity of 0.8e-7 to 1.3e-7 m²/s (from memory).
 * - Capacity: common practice, from memory (`meltCapacityMm3PerS`); with a 0.4 mm nozzle, whatever bore is fitted.
 * - Pressure: Hagen and Poiseuille, Newtonian, same flow: a trend (`pressureRatioOfBore`).
 * - Viscosity 10 °C hotter: Arrhenius, energies from memory; polymers without one are left out.
 * - Bridging: our estimate (`bridgingRisk`, `smallestBoreMm`).
 */
export function flowSheet(
  question: FlowQuestion,
  densityKgPerM3: number | null,
): Omit<FlowSheet, 'cautions'> {
  requireInRange(question);
  const { lineWidthMm, layerHeightMm, speedMmPerS, filamentDiameterMm, nozzleMm } = question;
  const area = beadAreaMm2(lineWidthMm, layerHeightMm);
  const plainArea = lineWidthMm * layerHeightMm;
  const flow = area * speedMmPerS;
  const feed = feedMmPerS(flow, filamentDiameterMm);
  const isFilled = (question.fillerPercent ?? 0) > 0;
  return {
    beadAreaMm2: area,
    plainAreaMm2: plainArea,
    flowMm3PerS: flow,
    plainFlowMm3PerS: plainArea * speedMmPerS,
    feedMmPerS: feed,
    metresPerHour: feed * 3.6,
    gramsPerHour: densityKgPerM3 === null || isFilled ? null : (flow * 3600 * densityKgPerM3) / 1e6,
    heatingSeconds: {
      low: heatingSeconds(filamentDiameterMm, HEATED_SHARE, DIFFUSIVITY.fast),
      likely: heatingSeconds(filamentDiameterMm, HEATED_SHARE, DIFFUSIVITY.usual),
      high: heatingSeconds(filamentDiameterMm, HEATED_SHARE, DIFFUSIVITY.slow),
    },
    ...hotEnd(question, area, flow),
    bores: COMMON_BORES_MM.map((boreMm) => ({
      boreMm,
      timesPressure: pressureRatioOfBore(nozzleMm, boreMm),
    })),
    hotter: hotter(question),
    bridging: bridging(question),
  };
}

function hotEnd(
  { meltZone, polymer, filamentDiameterMm }: FlowQuestion,
  area: number,
  flow: number,
): Pick<FlowSheet, 'residenceSeconds' | 'capacityMm3PerS' | 'shareOfCapacity' | 'fastestMmPerS'> {
  const stay =
    meltZone === null ? null : residenceSeconds(MELT_ZONE_LENGTH_MM[meltZone], filamentDiameterMm, flow);
  // Without a polymer the share of PLA's flow could be anything from a fifth up.
  if (meltZone === null || polymer === null)
    return { residenceSeconds: stay, capacityMm3PerS: null, shareOfCapacity: null, fastestMmPerS: null };
  const { low, likely, high } = meltCapacityMm3PerS(meltZone, polymer);
  return {
    residenceSeconds: stay,
    capacityMm3PerS: { low, likely, high },
    shareOfCapacity: { low: flow / high, likely: flow / likely, high: flow / low },
    fastestMmPerS: { low: low / area, likely: likely / area, high: high / area },
  };
}

function hotter({ polymer, nozzleC }: FlowQuestion): FlowSheet['hotter'] {
  const energies = polymer === null ? undefined : ACTIVATION_KJ_PER_MOL.get(polymer);
  if (!energies || nozzleC === null) return null;
  const [lowest, highest] = energies;
  const at = (energy: number) => viscosityRatio(energy, nozzleC, nozzleC + HOTTER_BY_C);
  // The more the energy, the more the melt thins.
  return { byC: HOTTER_BY_C, lowestTimesViscosity: at(highest), highestTimesViscosity: at(lowest) };
}

function bridging({ fillerPercent, particleLengthMm, nozzleMm }: FlowQuestion): FlowSheet['bridging'] {
  if (fillerPercent === null || fillerPercent === 0 || particleLengthMm === null) return null;
  const risk = bridgingRisk(nozzleMm, particleLengthMm, fillerPercent / 100);
  const smallest = smallestBoreMm(particleLengthMm, fillerPercent / 100);
  return {
    level: risk > 0.5 ? 'high' : risk > ACCEPTED_BRIDGING_RISK ? 'raised' : 'low',
    smallestBoreMm: smallest,
    nextBoreMm: COMMON_BORES_MM.find((bore) => bore >= smallest) ?? null,
  };
}

function requireInRange(question: FlowQuestion): void {
  for (const field of Object.keys(FLOW_NUMBERS) as FlowNumber[]) {
    const { what, unit, min, max } = FLOW_NUMBERS[field];
    const value = question[field];
    if (value !== null && !(value >= min && value <= max))
      throw new RangeError(`${what} (${field}) lies between ${min} and ${max} ${unit}, not ${value}`);
  }
  const { lineWidthMm, layerHeightMm } = question;
  if (lineWidthMm < layerHeightMm)
    throw new RangeError(
      `line width (lineWidthMm) is at least the layer height, ${layerHeightMm} mm, not ${lineWidthMm}`,
    );
}
