import type { MELT_ZONES } from '../contract/job-report.ts';
import { cylinderTimeFor } from '../moisture/cylinder-diffusion.ts';
import { filamentAreaMm2, requirePositive } from './bead.ts';

/** 10, 50 and 90 % points. */
interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** How long a hot end's melt zone is. Our own classes. */
export type MeltZone = (typeof MELT_ZONES)[number];

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

/** The same for other polymers, as a share of PLA's. Common practice, from memory; others are taken as 0.8. */
const SHARE_OF_PLA: ReadonlyMap<string, number> = new Map([
  ['pla', 1],
  ['petg', 0.75],
  ['pctg', 0.75],
  ['abs', 0.95],
  ['asa', 0.95],
  ['hips', 0.95],
  ['tpu', 0.3],
  ['tpe', 0.25],
]);
const SHARE_OF_OTHERS = 0.8;

/** Largest flow that a hot end of this class melts of this polymer, mm³/s, as a range. */
export function meltCapacityMm3PerS(zone: MeltZone, polymer: string): Range {
  const share = SHARE_OF_PLA.get(polymer) ?? SHARE_OF_OTHERS;
  const { low, likely, high } = PLA_CAPACITY[zone];
  return { low: low * share, likely: likely * share, high: high * share };
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
  if (!(fillerMassFraction >= 0 && fillerMassFraction < 1))
    throw new RangeError(`share of filler is a fraction from 0 to less than 1, not ${fillerMassFraction}`);
  if (fillerMassFraction === 0) return 0;
  const ratio = requirePositive(boreMm, 'bore', 'mm') / requirePositive(particleMm, 'particle', 'mm');
  const half = 3 * Math.sqrt(fillerMassFraction / 0.3);
  return 1 / (1 + (ratio / half) ** 6);
}
