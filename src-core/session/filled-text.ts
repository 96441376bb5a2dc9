import type { Conditions } from '../knowledge/conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Material, MaterialProperty } from '../knowledge/schema.ts';

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

/** A text of the guide with this case's numbers in the places of its {placeholders}. */
export function fillText(text: string, knowledge: Knowledge, conditions: Conditions): string {
  return text.replace(/\{([a-z-]+)\}/g, (whole, name: string) => {
    const unknown = UNKNOWN[name];
    if (unknown === undefined) return whole;
    return figureFor(name, knowledge, conditions) ?? unknown;
  });
}

function figureFor(name: string, knowledge: Knowledge, conditions: Conditions): string | null {
  const polymer = materialOf(knowledge, conditions['polymer']);
  const filler = materialOf(knowledge, conditions['filler']);
  if (name === 'polymer') return polymer?.label ?? null;
  if (name === 'nozzle')
    return typeof conditions['nozzle-mm'] === 'number' ? `${conditions['nozzle-mm']} mm` : null;
  if (name === 'smallest-nozzle')
    return propertyText(filler, 'smallestNozzleMm') ?? propertyText(polymer, 'smallestNozzleMm');
  const property = PROPERTY_OF[name];
  return property ? propertyText(polymer, property) : null;
}

function materialOf(knowledge: Knowledge, id: string | number | undefined): Material | undefined {
  return typeof id === 'string' ? knowledge.materials.get(id) : undefined;
}

/** "80 °C", "4 to 6 h" or the words of a property. */
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
