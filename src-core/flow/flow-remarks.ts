import type { Melting, MeltZone } from '../knowledge/melting-schema.ts';
import {
  acceptedBridgingRisk,
  bridgingRisk,
  heatingSeconds,
  meltCapacityMm3PerS,
  pressureRatioOfBore,
  residenceSeconds,
  smallestBoreMm,
} from './melt.ts';

const ZONE_WORDS: Readonly<Record<MeltZone, string>> = {
  short: 'a short melt zone',
  long: 'a long melt zone',
  'extra-long': 'an extra long melt zone',
};
const WIDER_BORES_SAID = 2;

interface FlowMachine {
  readonly nozzleMm: number | null;
  readonly polymer: string | null;
  readonly filamentDiameterMm: number;
}

/** A job's peak flow (mm³/s) against what the hot end melts; where it passes that, what would help and how far. */
export function peakFlowRemark(
  flowMm3PerS: number,
  zone: MeltZone,
  { nozzleMm, polymer, filamentDiameterMm }: FlowMachine,
  melting: Melting,
): string {
  const { low, likely, high } = meltCapacityMm3PerS(melting, zone, polymer ?? 'pla');
  const flow = number(flowMm3PerS, 1);
  const ofWhat = polymer === null ? 'PLA (no polymer is said)' : 'this';
  const share = flowMm3PerS / likely;
  if (share <= 1)
    return `Peak flow ${flow} mm³/s, ${Math.round(100 * share)} % of what ${ZONE_WORDS[zone]} usually melts of ${ofWhat}.`;
  const stay = residenceSeconds(melting.zones[zone].lengthMm.value, filamentDiameterMm, flowMm3PerS);
  const needed = heatingSeconds(filamentDiameterMm, 0.9, melting.thermalDiffusivityM2PerS.likely);
  return [
    `${flow} mm³/s, ${number(share, 1)} times what ${ZONE_WORDS[zone]} usually melts of ${ofWhat} (${number(low, 0)} to ${number(high, 0)} mm³/s).`,
    `It stays ${number(stay, 1)} s in the heat; about ${number(needed, 1)} s bring it to nine tenths of the wall's temperature.`,
    `At ${percent(likely / flowMm3PerS)} of its speed there it fits (${percent(low / flowMm3PerS)} to be sure, ${percent(high / flowMm3PerS)} at best).`,
    ...widerBoreWords(nozzleMm, melting.boresMm.values),
  ].join(' ');
}

function widerBoreWords(nozzleMm: number | null, boresMm: readonly number[]): readonly string[] {
  if (nozzleMm === null) return [];
  const wider = boresMm.filter((bore) => bore > nozzleMm).slice(0, WIDER_BORES_SAID);
  if (wider.length === 0) return [];
  const falls = wider.map((bore) => `${percent(pressureRatioOfBore(nozzleMm, bore))} through ${bore} mm`);
  return [
    `At the same flow the pressure in the nozzle falls from ${nozzleMm} mm to ${falls.join(', ')}: a trend, as real melts change less. The hot end melts no more for it.`,
  ];
}

/** A filled filament that comes near bridging the nozzle, taken as chopped fibre; null where it does not, or nobody says. */
export function bridgingRemark(
  {
    nozzleMm,
    fillerPercent,
  }: {
    readonly nozzleMm: number | null;
    /** 0 to 80. */
    readonly fillerPercent: number | null;
  },
  { bridging, boresMm }: Melting,
): string | null {
  if (nozzleMm === null || fillerPercent === null) return null;
  const fraction = fillerPercent / 100;
  const fibreMm = bridging.fibreLengthMm.value;
  if (bridgingRisk(bridging, nozzleMm, fibreMm, fraction) <= acceptedBridgingRisk(bridging)) return null;
  const smallest = smallestBoreMm(bridging, fibreMm, fraction);
  const fitted = boresMm.values.find((bore) => bore >= smallest);
  const cure = fitted === undefined ? '' : ` From ${fitted} mm up that is unlikely.`;
  return `${fillerPercent} % of filler through ${nozzleMm} mm: chopped fibre of about ${fibreMm} mm may bridge the bore and jam it.${cure} A warning, not a verdict: fibres align, and powder is finer.`;
}

/** A share of 0 to 1 and more; nothing fits better than whole. */
function percent(share: number): string {
  return `${Math.round(100 * Math.min(1, share))} %`;
}

function number(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
