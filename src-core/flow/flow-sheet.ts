import { FLOW_NUMBERS, type FlowNumber } from '../contract/flow-numbers.ts';
import type { FlowQuestion, FlowSheet } from '../contract/flow-sheet.ts';
import type { Melting } from '../knowledge/melting-schema.ts';
import { beadAreaMm2, feedMmPerS } from './bead.ts';
import {
  acceptedBridgingRisk,
  bridgingRisk,
  heatingSeconds,
  meltCapacityMm3PerS,
  pressureRatioOfBore,
  residenceSeconds,
  smallestBoreMm,
  viscosityRatio,
} from './melt.ts';

const HOTTER_BY_C = 10;

/** Share of the way to the wall's temperature that is counted as heated through. */
const HEATED_SHARE = 0.9;

/**
 * What one line asks of feed, hot end and nozzle: everything in the sheet but the cautions.
 *
 * `densityKgPerM3` is the polymer's; null where not known. `melting` is the guide's, with the source of each figure. Fields and ranges: `FLOW_NUMBERS`. Throws a `RangeError` that names
 * the field for a number out of range, and for a line narrower than its layer is high.
 *
 * - Bead: half-round ends, π h²/4 + h (w - h); plain: w h. Flow is area times speed (geometry; `beadAreaMm2`).
 * - Feed: flow over the filament's cross-section. Grams are left out for filled filament, whose density is not known here.
 * - Residence: plug flow through a melt zone of the class's length. Heating: conduction into a cylinder (Crank 1975, eq. 5.23)
 *   with the guide's diffusivity.
 * - Capacity: `meltCapacityMm3PerS`; with a 0.4 mm nozzle, whatever bore is fitted.
 * - Pressure: Hagen and Poiseuille, Newtonian, same flow: a trend (`pressureRatioOfBore`).
 * - Viscosity 10 °C hotter: Arrhenius; polymers without one are left out.
 * - Bridging: `bridgingRisk`, `smallestBoreMm`.
 */
export function flowSheet(
  question: FlowQuestion,
  densityKgPerM3: number | null,
  melting: Melting,
): Omit<FlowSheet, 'cautions'> {
  requireInRange(question);
  const { lineWidthMm, layerHeightMm, speedMmPerS, filamentDiameterMm, nozzleMm } = question;
  const area = beadAreaMm2(lineWidthMm, layerHeightMm);
  const plainArea = lineWidthMm * layerHeightMm;
  const flow = area * speedMmPerS;
  const feed = feedMmPerS(flow, filamentDiameterMm);
  const diffusivity = melting.thermalDiffusivityM2PerS;
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
      low: heatingSeconds(filamentDiameterMm, HEATED_SHARE, diffusivity.high),
      likely: heatingSeconds(filamentDiameterMm, HEATED_SHARE, diffusivity.likely),
      high: heatingSeconds(filamentDiameterMm, HEATED_SHARE, diffusivity.low),
    },
    ...hotEnd(question, area, flow, melting),
    bores: melting.boresMm.values.map((boreMm) => ({
      boreMm,
      timesPressure: pressureRatioOfBore(nozzleMm, boreMm),
    })),
    hotter: hotter(question, melting),
    bridging: bridging(question, melting),
  };
}

function hotEnd(
  { meltZone, polymer, filamentDiameterMm }: FlowQuestion,
  area: number,
  flow: number,
  melting: Melting,
): Pick<FlowSheet, 'residenceSeconds' | 'capacityMm3PerS' | 'shareOfCapacity' | 'fastestMmPerS'> {
  const stay =
    meltZone === null
      ? null
      : residenceSeconds(melting.zones[meltZone].lengthMm.value, filamentDiameterMm, flow);
  // Without a polymer the share of PLA's flow could be anything from a fifth up.
  if (meltZone === null || polymer === null)
    return { residenceSeconds: stay, capacityMm3PerS: null, shareOfCapacity: null, fastestMmPerS: null };
  const { low, likely, high } = meltCapacityMm3PerS(melting, meltZone, polymer);
  return {
    residenceSeconds: stay,
    capacityMm3PerS: { low, likely, high },
    shareOfCapacity: { low: flow / high, likely: flow / likely, high: flow / low },
    fastestMmPerS: { low: low / area, likely: likely / area, high: high / area },
  };
}

function hotter({ polymer, nozzleC }: FlowQuestion, melting: Melting): FlowSheet['hotter'] {
  const energies = melting.activationKjPerMol.find((one) => one.polymer === polymer);
  if (!energies || nozzleC === null) return null;
  const { low: lowest, high: highest } = energies;
  const at = (energy: number) => viscosityRatio(energy, nozzleC, nozzleC + HOTTER_BY_C);
  // The more the energy, the more the melt thins.
  return { byC: HOTTER_BY_C, lowestTimesViscosity: at(highest), highestTimesViscosity: at(lowest) };
}

function bridging(
  { fillerPercent, particleLengthMm, nozzleMm }: FlowQuestion,
  melting: Melting,
): FlowSheet['bridging'] {
  if (fillerPercent === null || fillerPercent === 0 || particleLengthMm === null) return null;
  const risk = bridgingRisk(melting.bridging, nozzleMm, particleLengthMm, fillerPercent / 100);
  const smallest = smallestBoreMm(melting.bridging, particleLengthMm, fillerPercent / 100);
  return {
    level: risk > 0.5 ? 'high' : risk > acceptedBridgingRisk(melting.bridging) ? 'raised' : 'low',
    smallestBoreMm: smallest,
    nextBoreMm: melting.boresMm.values.find((bore) => bore >= smallest) ?? null,
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
