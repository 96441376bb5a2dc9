import type { Material, MaterialProperty, SpoolBody } from '../knowledge/schema.ts';
import { figureTexts } from './en/figures.ts';
import {
  celsius,
  celsiusFromTo,
  decimalsOf,
  type Message,
  type MessageValue,
  type Words,
} from './message.ts';
import { PLACE } from './say-words.ts';

const { m } = figureTexts;

/** Figures worked out for one spool or job, by the placeholder in whose place they stand. */
export type WorkedOut = Readonly<Record<string, MessageValue>>;

/** What the {placeholders} of the guide's texts are filled from. */
export interface FigureSources {
  readonly polymer?: Material | undefined;
  readonly filler?: Material | undefined;
  readonly nozzleMm?: number | undefined;
  /** What filament is wound on while nobody has named it: drying figures keep to what it bears. */
  readonly spoolBody?: SpoolBody | undefined;
  /** Figures worked out for this very spool or job, by placeholder; they come before the material's. */
  readonly workedOut?: WorkedOut | undefined;
}

/** What is said for a figure that nobody has given: the step still reads, and says where to look. */
const UNKNOWN: Readonly<Record<string, Message>> = {
  polymer: m.thisPolymer(),
  'drying-temperature': m.makersDryingTemperature(),
  'drying-hours': m.makersDryingHours(),
  'drying-limit': m.softeningLimit(),
  'nozzle-temperature': m.middleOfMakersRange(),
  'plate-temperature': m.makersPlate(),
  chamber: m.makersChamber(),
  'part-fan': m.makersFan(),
  'smallest-nozzle': m.smallestMakerAllows(),
  nozzle: m.fittedNozzle(),
};

const PROPERTY_OF: Readonly<Record<string, MaterialProperty>> = {
  'drying-temperature': 'dryingTempC',
  'drying-hours': 'dryingHours',
  'drying-limit': 'dryingMaxTempC',
  'nozzle-temperature': 'nozzleTempC',
  'plate-temperature': 'plateTempC',
  chamber: 'chamberTempC',
  'part-fan': 'partFanPercent',
};

/** A text of the guide with figures in the places of its {placeholders}, or what says where to look; as it is where it has none. */
export function fillFigures(text: string, sources: FigureSources): Words {
  const places = [...text.matchAll(PLACE)].flatMap(([, name = '']) => {
    const unknown = UNKNOWN[name];
    return unknown === undefined ? [] : [[name, figureFor(name, sources) ?? unknown] as const];
  });
  return places.length === 0 ? text : { guide: text, places: Object.fromEntries(places) };
}

/** Whether a text has places for numbers of the material or the nozzle. */
export function hasFigures(text: string): boolean {
  return Object.keys(UNKNOWN).some((name) => text.includes(`{${name}}`));
}

function figureFor(name: string, sources: FigureSources): MessageValue | null {
  const { polymer, filler, nozzleMm, workedOut } = sources;
  const known = workedOut?.[name] ?? heldBySpool(name, sources);
  if (known !== undefined) return known;
  if (name === 'polymer') return polymer?.label ?? null;
  if (name === 'nozzle') return nozzleMm === undefined ? null : m.withUnit({ value: nozzleMm, unit: 'mm' });
  if (name === 'smallest-nozzle')
    return propertyFigure(filler, 'smallestNozzleMm') ?? propertyFigure(polymer, 'smallestNozzleMm');
  const property = PROPERTY_OF[name];
  return property ? propertyFigure(polymer, property) : null;
}

/**
 * A drying figure where the spool gives way before the filament; undefined where it does not, or is not known. The hours of
 * a hot dryer do not hold there.
 */
function heldBySpool(name: string, { polymer, spoolBody }: FigureSources): MessageValue | undefined {
  const drying = polymer?.properties.dryingTempC;
  const single = typeof drying?.value === 'number' ? drying.value : undefined;
  const { low = single, high = single } = drying ?? {};
  const spoolHighestC = spoolBody?.highestTempC.value;
  const filamentHighestC = polymer?.properties.dryingMaxTempC?.value;
  if (spoolHighestC === undefined || low === undefined || high === undefined) return undefined;
  const temperature = degrees(spoolHighestC);
  switch (name) {
    case 'drying-temperature':
      if (high <= spoolHighestC) return undefined;
      if (low < spoolHighestC) return celsiusFromTo(low, spoolHighestC);
      return low === spoolHighestC
        ? degrees(low)
        : m.onlyOnBetterSpool({
            temperature,
            hotter: low === high ? degrees(high) : celsiusFromTo(low, high),
          });
    case 'drying-hours':
      return low <= spoolHighestC ? undefined : slowHours(spoolBody);
    case 'drying-limit':
      return typeof filamentHighestC !== 'number' || filamentHighestC <= spoolHighestC
        ? undefined
        : m.onPlasticSpool({ temperature });
    default:
      return undefined;
  }
}

const degrees = (value: number) => celsius(value, decimalsOf(value));

function slowHours(body: SpoolBody | undefined): Message {
  const hours = body?.slowDryingHours;
  return hours ? m.slowHours({ low: hours.low, high: hours.high }) : m.longerThanSheet();
}

/** "80 °C", "4 to 6 h" or the guide's words of a property; null where the material has none. */
export function propertyFigure(
  material: Material | undefined,
  name: MaterialProperty,
): Message | string | null {
  const { low, high, value, unit } = material?.properties[name] ?? {};
  if (low !== undefined && high !== undefined) {
    if (unit === '°C') return m.only({ value: celsiusFromTo(low, high) });
    return unit ? m.fromToUnit({ low, high, unit }) : m.fromTo({ low, high });
  }
  if (typeof value === 'string') return value;
  if (value !== undefined) return withUnit(value, unit);
  if (low !== undefined) return m.atLeast({ figure: withUnit(low, unit) });
  return high === undefined ? null : m.atMost({ figure: withUnit(high, unit) });
}

function withUnit(value: number, unit: string | undefined): Message {
  if (unit === '°C') return m.only({ value: degrees(value) });
  return unit ? m.withUnit({ value, unit }) : m.only({ value });
}
