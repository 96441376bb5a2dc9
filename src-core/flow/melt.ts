import type { MELT_ZONES } from '../contract/melt-zones.ts';
import { cylinderTimeFor } from '../numerics/cylinder-diffusion.ts';
import { filamentAreaMm2, requirePositive } from './bead.ts';

/** 10, 50 and 90 % points. */
interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** How long a hot end's melt zone is. Our own classes. */
export type MeltZone = (typeof MELT_ZONES)[number];

/** A length for each class, mm: our own estimate. Its bore is taken as the filament's. */
export const MELT_ZONE_LENGTH_MM: Readonly<Record<MeltZone, number>> = {
  short: 12,
  long: 20,
  'extra-long': 30,
};

/** Bores that nozzles are commonly sold with, mm, smallest first. Common practice. */
export const COMMON_BORES_MM = [0.25, 0.4, 0.5, 0.6, 0.8, 1] as const;

/** How sharply bridging sets in as the ratio of bore to particle falls; our estimate. */
const STEEPNESS = 6;
const GAS_CONSTANT = 8.31446261815324;
const ZERO_CELSIUS_K = 273.15;

/**
 * Largest flow that a hot end melts, mm³/s: PLA near 220 °C through 0.4 mm. Common practice, from memory, no published
 * source: settings, not standards.
 */
const PLA_CAPACITY: Readonly<Record<MeltZone, Range>> = {
  short: { low: 8, likely: 11, high: 15 },
  long: { low: 18, likely: 23, high: 28 },
  'extra-long': { low: 25, likely: 34, high: 45 },
};

const AS_PLA: Range = { low: 1, likely: 1, high: 1 };
const STIFF_MELT: Range = { low: 0.7, likely: 0.75, high: 0.8 };
const STYRENE: Range = { low: 0.9, likely: 0.95, high: 1 };
const FLEXIBLE: Range = { low: 0.2, likely: 0.3, high: 0.4 };

/**
 * The same for other polymers, as a share of PLA's. Common practice, from memory, for PETG, ABS, ASA and TPU. PCTG is taken as
 * PETG, HIPS as ABS and TPE as TPU; the share of all others is our own estimate.
 */
const SHARE_OF_PLA: ReadonlyMap<string, Range> = new Map([
  ['pla', AS_PLA],
  ['petg', STIFF_MELT],
  ['pctg', STIFF_MELT],
  ['abs', STYRENE],
  ['asa', STYRENE],
  ['hips', STYRENE],
  ['tpu', FLEXIBLE],
  ['tpe', FLEXIBLE],
]);
const SHARE_OF_OTHERS: Range = { low: 0.6, likely: 0.8, high: 1 };

/**
 * Largest flow that a hot end of this class melts of this polymer, mm³/s, as a range: PLA's range times the polymer's share, end
 * by end. Both doubts at their worst together are rare, so the range is rather too wide than too narrow.
 */
export function meltCapacityMm3PerS(zone: MeltZone, polymer: string): Range {
  const share = SHARE_OF_PLA.get(polymer) ?? SHARE_OF_OTHERS;
  const { low, likely, high } = PLA_CAPACITY[zone];
  return { low: low * share.low, likely: likely * share.likely, high: high * share.high };
}

/** Seconds in a melt zone of this length and bore, plug flow: volume over flow. */
export function residenceSeconds(zoneLengthMm: number, boreMm: number, flowMm3PerS: number): number {
  requirePositive(zoneLengthMm, 'melt zone', 'mm');
  return (zoneLengthMm * filamentAreaMm2(boreMm)) / requirePositive(flowMm3PerS, 'flow', 'mm³/s');
}

/**
 * Seconds until the mean temperature of the filament has come this share (0 to 1) of the way to the wall's. Conduction into a
 * long cylinder, the same mathematics as water uptake (Crank 1975, eq. 5.23); diffusivity of polymers 0.8e-7 to
 * 1.3e-7 m²/s (from memory).
 */
export function heatingSeconds(
  filamentDiameterMm: number,
  share: number,
  thermalDiffusivityM2PerS = 1e-7,
): number {
  const radiusM = requirePositive(filamentDiameterMm, 'filament diameter', 'mm') / 2000;
  return (
    (cylinderTimeFor(share) * radiusM ** 2) / requirePositive(thermalDiffusivityM2PerS, 'diffusivity', 'm²/s')
  );
}

/**
 * Pressure in the nozzle relative to another bore at the same flow: (d0/d)⁴ (Hagen and Poiseuille, a Newtonian melt). Melts
 * thin under shear, so the real change is smaller: a trend, not a figure.
 */
export function pressureRatioOfBore(fromMm: number, toMm: number): number {
  return (requirePositive(fromMm, 'bore', 'mm') / requirePositive(toMm, 'bore', 'mm')) ** 4;
}

/** Viscosity at one temperature relative to another: exp(Ea/R (1/T2 - 1/T1)) (Arrhenius). Ea in kJ/mol. */
export function viscosityRatio(activationKjPerMol: number, fromC: number, toC: number): number {
  const inverse = 1 / (toC + ZERO_CELSIUS_K) - 1 / (fromC + ZERO_CELSIUS_K);
  return Math.exp(((activationKjPerMol * 1000) / GAS_CONSTANT) * inverse);
}

/**
 * How near a filled melt is to bridging the bore, 0 to 1: smooth, as grains clog with a chance that falls with the ratio of
 * bore to particle and no size is sharply safe (Thomas & Durian, Phys. Rev. Lett. 114 (2015) 178001). Half at a ratio of 3
 * and 30 % of filler, less with less filler: our estimate, in line with common practice that 30 % fibre of 0.1 to 0.2 mm jams
 * 0.4 mm nozzles and 0.6 mm cures it. Fibres align with the flow, so it is a warning, not a verdict.
 */
export function bridgingRisk(boreMm: number, particleMm: number, fillerMassFraction: number): number {
  const half = ratioOfHalfRisk(fillerMassFraction);
  const ratio = requirePositive(boreMm, 'bore', 'mm') / requirePositive(particleMm, 'particle', 'mm');
  return half === 0 ? 0 : 1 / (1 + (ratio / half) ** STEEPNESS);
}

/** Risk of bridging that is accepted where nobody says otherwise; see `smallestBoreMm`. */
export const ACCEPTED_BRIDGING_RISK = 1 / 6;

/**
 * Smallest bore, mm, that keeps `bridgingRisk` at or below `acceptedRisk` (above 0, below 1); 0 without filler.
 *
 * By default one in six is accepted: with it the next bore that is sold is the one that common practice fits, 0.6 mm for 30 % of
 * fibre 0.15 mm long and 0.4 mm for 10 % (0.59 and 0.34 mm before rounding up). An estimate on an estimate: a warning.
 */
export function smallestBoreMm(
  particleMm: number,
  fillerMassFraction: number,
  acceptedRisk = ACCEPTED_BRIDGING_RISK,
): number {
  if (!(acceptedRisk > 0 && acceptedRisk < 1))
    throw new RangeError(`accepted risk is a fraction above 0 and below 1, not ${acceptedRisk}`);
  const ratio = ratioOfHalfRisk(fillerMassFraction) * (1 / acceptedRisk - 1) ** (1 / STEEPNESS);
  return requirePositive(particleMm, 'particle', 'mm') * ratio;
}

/** Bore over particle at which half the risk is reached: 3 with 30 % of filler. */
function ratioOfHalfRisk(fillerMassFraction: number): number {
  if (!(fillerMassFraction >= 0 && fillerMassFraction < 1))
    throw new RangeError(`share of filler is a fraction from 0 to less than 1, not ${fillerMassFraction}`);
  return 3 * Math.sqrt(fillerMassFraction / 0.3);
}
