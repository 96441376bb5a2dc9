import { FLOW_NUMBERS, type FlowNumber } from '../../../src-core/contract/flow-numbers.ts';
import type { TemperatureUnit } from '../../../src-core/contract/display-choices.ts';
import { faultOfNumber, shownNumber, type ShownNumber } from '../../wording/temperature-input.ts';
import { m } from '../../messages/en/flow.ts';

/** The numbers as they stand in the form, in the reader's units. */
export type FlowTexts = Readonly<Record<FlowNumber, string>>;

/** What may be left empty: nobody knows it, or it does not apply. */
const OPTIONAL: ReadonlySet<FlowNumber> = new Set(['fillerPercent', 'particleLengthMm', 'nozzleC']);

export const FLOW_FIELDS = Object.keys(FLOW_NUMBERS) as readonly FlowNumber[];

/** What each number is called over its field. */
export const FIELD_LABELS: Readonly<Record<FlowNumber, string>> = {
  lineWidthMm: m.lineWidth(),
  layerHeightMm: m.layerHeight(),
  speedMmPerS: m.speed(),
  filamentDiameterMm: m.filamentDiameter(),
  nozzleMm: m.nozzleSize(),
  fillerPercent: m.fillerByWeight(),
  particleLengthMm: m.particleLength(),
  nozzleC: m.nozzleTemperature(),
};

export function shownField(field: FlowNumber, unit: TemperatureUnit): ShownNumber {
  return shownNumber(FLOW_NUMBERS[field], unit);
}

export function isOptionalField(field: FlowNumber): boolean {
  return OPTIONAL.has(field);
}

/** A number of the guide as the form shows it. */
export function fieldText(field: FlowNumber, value: number | null, unit: TemperatureUnit): string {
  return value === null ? '' : String(shownField(field, unit).toShown(value));
}

/** What is wrong with the form, field by field; empty where it can be asked. */
export function faultsOf(texts: FlowTexts, unit: TemperatureUnit): ReadonlyMap<FlowNumber, string> {
  const faults = new Map<FlowNumber, string>();
  for (const field of FLOW_FIELDS) {
    if (texts[field].trim() === '' && OPTIONAL.has(field)) continue;
    const fault = faultOfNumber(texts[field], shownField(field, unit));
    if (fault !== null) faults.set(field, fault);
  }
  if (
    !faults.has('lineWidthMm') &&
    !faults.has('layerHeightMm') &&
    numberIn(texts.lineWidthMm) < numberIn(texts.layerHeightMm)
  )
    faults.set('lineWidthMm', m.aLineIsAtLeastAs());
  return faults;
}

/** The number of a field in the guide's unit; null where it is left empty. Requires a form without faults. */
export function fieldNumber(texts: FlowTexts, field: FlowNumber, unit: TemperatureUnit): number | null {
  return texts[field].trim() === '' ? null : shownField(field, unit).toGuide(numberIn(texts[field]));
}

function numberIn(text: string): number {
  return Number(text.replace(',', '.').replace('−', '-'));
}
