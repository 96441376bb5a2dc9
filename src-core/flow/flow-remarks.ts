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
import { flowTexts } from '../words/en/flow.ts';
import type { Message } from '../words/message.ts';

const { m } = flowTexts;

const ZONE_WORDS: Readonly<Record<MeltZone, Message>> = {
  short: m.zoneShort(),
  long: m.zoneLong(),
  'extra-long': m.zoneExtraLong(),
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
): readonly Message[] {
  const { low, likely, high } = meltCapacityMm3PerS(melting, zone, polymer ?? 'pla');
  const flow = number(flowMm3PerS, 1);
  const ofWhat = polymer === null ? m.ofPlaUnsaid() : m.ofThis();
  const share = flowMm3PerS / likely;
  if (share <= 1)
    return [m.peakFlowWithin({ flow, percent: Math.round(100 * share), zone: ZONE_WORDS[zone], ofWhat })];
  const stay = residenceSeconds(melting.zones[zone].lengthMm.value, filamentDiameterMm, flowMm3PerS);
  const needed = heatingSeconds(filamentDiameterMm, 0.9, melting.thermalDiffusivityM2PerS.likely);
  return [
    m.peakFlowAbove({
      flow,
      times: number(share, 1),
      zone: ZONE_WORDS[zone],
      ofWhat,
      low: number(low, 0),
      high: number(high, 0),
    }),
    m.staysInHeat({ seconds: number(stay, 1), needed: number(needed, 1) }),
    m.fitsAtShareOfSpeed({
      likely: percent(likely / flowMm3PerS),
      low: percent(low / flowMm3PerS),
      high: percent(high / flowMm3PerS),
    }),
    ...widerBoreWords(nozzleMm, melting.boresMm.values),
  ];
}

function widerBoreWords(nozzleMm: number | null, boresMm: readonly number[]): readonly Message[] {
  if (nozzleMm === null) return [];
  const wider = boresMm.filter((bore) => bore > nozzleMm).slice(0, WIDER_BORES_SAID);
  if (wider.length === 0) return [];
  const falls = wider.map((boreMm) =>
    m.pressureThrough({ percent: percent(pressureRatioOfBore(nozzleMm, boreMm)), boreMm }),
  );
  return [m.pressureFalls({ nozzleMm, falls })];
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
): readonly Message[] | null {
  if (nozzleMm === null || fillerPercent === null) return null;
  const fraction = fillerPercent / 100;
  const fibreMm = bridging.fibreLengthMm.value;
  if (bridgingRisk(bridging, nozzleMm, fibreMm, fraction) <= acceptedBridgingRisk(bridging)) return null;
  const smallest = smallestBoreMm(bridging, fibreMm, fraction);
  const fitted = boresMm.values.find((bore) => bore >= smallest);
  return [
    m.fibresMayBridge({ fillerPercent, nozzleMm, fibreMm }),
    ...(fitted === undefined ? [] : [m.fibresUnlikelyFrom({ boreMm: fitted })]),
    m.fibresWarning(),
  ];
}

/** A share of 0 to 1 and more, in percent; nothing fits better than whole. */
function percent(share: number): number {
  return Math.round(100 * Math.min(1, share));
}

function number(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
