import type { Material, MaterialProperty, SpoolBody } from '../knowledge/schema.ts';

/** What the {placeholders} of the guide's texts are filled from. */
export interface FigureSources {
  readonly polymer?: Material | undefined;
  readonly filler?: Material | undefined;
  readonly nozzleMm?: number | undefined;
  /** What filament is wound on while nobody has named it: drying figures keep to what it bears. */
  readonly spoolBody?: SpoolBody | undefined;
  /** Figures worked out for this very spool or job, by placeholder; they come before the material's. */
  readonly workedOut?: Readonly<Record<string, string>> | undefined;
}

/** Words for a figure that nobody has given: the step still reads, and says where to look. */
const UNKNOWN: Readonly<Record<string, string>> = {
  polymer: 'this polymer',
  'drying-temperature': "the drying temperature on the maker's sheet",
  'drying-hours': "the drying time on the maker's sheet",
  'drying-limit': 'the temperature at which spool or winding softens',
  'nozzle-temperature': "the middle of the maker's range",
  'plate-temperature': "the maker's plate temperature",
  chamber: "the maker's chamber temperature",
  'part-fan': "the maker's fan setting",
  'smallest-nozzle': 'the smallest bore the maker allows',
  nozzle: 'the fitted nozzle',
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

/** A text of the guide with numbers in the places of its {placeholders}, or words that say where to look. */
export function fillFigures(text: string, sources: FigureSources): string {
  return text.replace(/\{([a-z-]+)\}/g, (whole, name: string) => {
    const unknown = UNKNOWN[name];
    if (unknown === undefined) return whole;
    return figureFor(name, sources) ?? unknown;
  });
}

/** Whether a text has places for numbers of the material or the nozzle. */
export function hasFigures(text: string): boolean {
  return Object.keys(UNKNOWN).some((name) => text.includes(`{${name}}`));
}

function figureFor(name: string, sources: FigureSources): string | null {
  const { polymer, filler, nozzleMm, workedOut } = sources;
  const known = workedOut?.[name] ?? heldBySpool(name, sources);
  if (known !== undefined) return known;
  if (name === 'polymer') return polymer?.label ?? null;
  if (name === 'nozzle') return nozzleMm === undefined ? null : `${nozzleMm} mm`;
  if (name === 'smallest-nozzle')
    return propertyText(filler, 'smallestNozzleMm') ?? propertyText(polymer, 'smallestNozzleMm');
  const property = PROPERTY_OF[name];
  return property ? propertyText(polymer, property) : null;
}

/**
 * A drying figure where the spool gives way before the filament; undefined where it does not, or is not known. The hours of
 * a hot dryer do not hold there.
 */
function heldBySpool(name: string, { polymer, spoolBody }: FigureSources): string | undefined {
  const drying = polymer?.properties.dryingTempC;
  const single = typeof drying?.value === 'number' ? drying.value : undefined;
  const { low = single, high = single } = drying ?? {};
  const spoolHighestC = spoolBody?.highestTempC.value;
  const filamentHighestC = polymer?.properties.dryingMaxTempC?.value;
  if (spoolHighestC === undefined || low === undefined || high === undefined) return undefined;
  switch (name) {
    case 'drying-temperature':
      if (high <= spoolHighestC) return undefined;
      if (low < spoolHighestC) return `${low} to ${spoolHighestC} °C`;
      return low === spoolHighestC
        ? `${low} °C`
        : `${spoolHighestC} °C (${low === high ? '' : `${low} to `}${high} °C only on a spool made for it)`;
    case 'drying-hours':
      return low <= spoolHighestC ? undefined : slowHours(spoolBody);
    case 'drying-limit':
      return typeof filamentHighestC !== 'number' || filamentHighestC <= spoolHighestC
        ? undefined
        : `${spoolHighestC} °C on a plastic spool`;
    default:
      return undefined;
  }
}

function slowHours(body: SpoolBody | undefined): string {
  const hours = body?.slowDryingHours;
  return hours
    ? `${hours.low} to ${hours.high} h, or shorter on a spool made for more heat`
    : "longer than the maker's sheet says";
}

/** "80 °C", "4 to 6 h" or the words of a property; null where the material has none. */
export function propertyText(material: Material | undefined, name: MaterialProperty): string | null {
  const property = material?.properties[name];
  if (!property) return null;
  const unit = property.unit ? ` ${property.unit}` : '';
  if (property.low !== undefined && property.high !== undefined)
    return `${property.low} to ${property.high}${unit}`;
  if (property.value !== undefined)
    return `${property.value}${typeof property.value === 'number' ? unit : ''}`;
  if (property.low !== undefined) return `at least ${property.low}${unit}`;
  if (property.high !== undefined) return `at most ${property.high}${unit}`;
  return null;
}
