import type { Melting, MeltZone } from '../knowledge/melting-schema.ts';
import { cylinderTimeFor } from '../numerics/cylinder-diffusion.ts';
import { filamentAreaMm2, requirePositive } from './bead.ts';

const GAS_CONSTANT = 8.31446261815324;
const ZERO_CELSIUS_K = 273.15;

/**
 * Largest flow that a hot end of this class melts of this polymer, mm³/s, as a range: PLA's range times the polymer's share, end
 * by end. Both doubts at their worst together are rare, so the range is rather too wide than too narrow.
 */
export function meltCapacityMm3PerS(
  melting: Melting,
  zone: MeltZone,
  polymer: string,
): { readonly low: number; readonly likely: number; readonly high: number } {
  const share = melting.shareOfPla.find((one) => one.polymer === polymer) ?? melting.shareOfOthers;
  const { low, likely, high } = melting.zones[zone].plaFlowMm3PerS;
  return { low: low * share.low, likely: likely * share.likely, high: high * share.high };
}

/** Seconds in a melt zone of this length and bore, plug flow: volume over flow. */
export function residenceSeconds(zoneLengthMm: number, boreMm: number, flowMm3PerS: number): number {
  requirePositive(zoneLengthMm, 'melt zone', 'mm');
  return (zoneLengthMm * filamentAreaMm2(boreMm)) / requirePositive(flowMm3PerS, 'flow', 'mm³/s');
}

/**
 * Seconds until the mean temperature of the filament has come this share (0 to 1) of the way to the wall's. Conduction into a
 * long cylinder, the same mathematics as water uptake (Crank 1975, eq. 5.23); the guide's diffusivity
 * of polymers.
 */
export function heatingSeconds(
  filamentDiameterMm: number,
  share: number,
  thermalDiffusivityM2PerS: number,
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
 * bore to particle and no size is sharply safe (Thomas & Durian, Phys. Rev. Lett. 114 (2015) 178001). Half at the
 * guide's ratio and 30 % of filler, less with less filler. Fibres align with the flow, so it is a warning, not a verdict.
 */
export function bridgingRisk(
  { halfRiskRatio, steepness }: Melting['bridging'],
  boreMm: number,
  particleMm: number,
  fillerMassFraction: number,
): number {
  const half = ratioOfHalfRisk(halfRiskRatio.value, fillerMassFraction);
  const ratio = requirePositive(boreMm, 'bore', 'mm') / requirePositive(particleMm, 'particle', 'mm');
  return half === 0 ? 0 : 1 / (1 + (ratio / half) ** steepness.value);
}

/** Risk of bridging that is accepted where nobody says otherwise, above 0 and below 1. */
export function acceptedBridgingRisk({ acceptedOneIn }: Melting['bridging']): number {
  return 1 / acceptedOneIn.value;
}

/**
 * Smallest bore, mm, that keeps `bridgingRisk` at or below `acceptedRisk` (above 0, below 1; the guide's where left out); 0
 * without filler. An estimate on an estimate: a warning.
 */
export function smallestBoreMm(
  bridging: Melting['bridging'],
  particleMm: number,
  fillerMassFraction: number,
  acceptedRisk = acceptedBridgingRisk(bridging),
): number {
  if (!(acceptedRisk > 0 && acceptedRisk < 1))
    throw new RangeError(`accepted risk is a fraction above 0 and below 1, not ${acceptedRisk}`);
  const { halfRiskRatio, steepness } = bridging;
  const ratio =
    ratioOfHalfRisk(halfRiskRatio.value, fillerMassFraction) *
    (1 / acceptedRisk - 1) ** (1 / steepness.value);
  return requirePositive(particleMm, 'particle', 'mm') * ratio;
}

/** Bore over particle at which half the risk is reached, from that with 30 % of filler. */
function ratioOfHalfRisk(with30Percent: number, fillerMassFraction: number): number {
  if (!(fillerMassFraction >= 0 && fillerMassFraction < 1))
    throw new RangeError(`share of filler is a fraction from 0 to less than 1, not ${fillerMassFraction}`);
  return with30Percent * Math.sqrt(fillerMassFraction / 0.3);
}
