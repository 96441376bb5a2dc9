import type { Guide } from '../../../../src-core/contract/guide-view.ts';
import type { TemperatureUnit } from '../../../../src-core/contract/display-choices.ts';
import { propertyText } from '../../../../src-core/words/guide-figures.ts';
import { inUnit } from '../../../wording/format.ts';

type Material = Guide['materials'][number];
type PropertyId = keyof Material['properties'];

/** Properties of a material in the order of the sheet, with the words for them. */
export const PROPERTY_WORDS: readonly { readonly id: PropertyId; readonly label: string }[] = [
  { id: 'dryingTempC', label: 'Drying temperature' },
  { id: 'dryingHours', label: 'Drying time' },
  { id: 'dryingMaxTempC', label: 'Never dry above' },
  { id: 'dryingLimitWhy', label: 'Why not above' },
  { id: 'residualMoisturePercent', label: 'Water left when fit to print' },
  { id: 'equilibriumWaterPercent', label: 'Water in room air' },
  { id: 'saturationWaterPercent', label: 'Water at most' },
  { id: 'nozzleTempC', label: 'Nozzle temperature' },
  { id: 'plateTempC', label: 'Bed temperature' },
  { id: 'chamberTempC', label: 'Chamber temperature' },
  { id: 'partFanPercent', label: 'Part fan' },
  { id: 'surface', label: 'Build plate' },
  { id: 'smallestNozzleMm', label: 'Smallest nozzle size' },
  { id: 'abrasiveness', label: 'Wear on nozzle and path' },
  { id: 'effectOnMoisture', label: 'Effect on moisture' },
  { id: 'effectOnStrength', label: 'Effect on strength' },
  { id: 'shrinkagePercent', label: 'Shrinkage' },
  { id: 'glassTransitionC', label: 'Glass transition' },
  { id: 'heatDeflectionC', label: 'Heat deflection, light load (0.45 MPa)' },
  { id: 'heatDeflection18C', label: 'Heat deflection, loaded (1.8 MPa)' },
  { id: 'continuousUseC', label: 'Continuous use in air' },
  { id: 'shoreHardnessA', label: 'Shore hardness' },
  { id: 'creep', label: 'Creep under load' },
  { id: 'impact', label: 'Impact' },
  { id: 'ultraviolet', label: 'Ultraviolet light' },
  { id: 'chemicals', label: 'Chemicals' },
  { id: 'difficulty', label: 'Printing it' },
];

/** A property's figure or words in the reader's unit: "45 to 55 °C", or null where there is none. */
export function propertyWords(material: Material, id: PropertyId, unit: TemperatureUnit): string | null {
  const text = propertyText(material, id);
  return text === null ? null : inUnit(text, unit);
}

/** A cause whose odds this material raises. */
export interface LikelierCause {
  readonly cause: string;
  readonly timesOdds: number;
  /** Further conditions that must hold too. */
  readonly also: Guide['causes'][number]['movedBy'][number]['when'];
  readonly because: string;
  readonly source: string;
}

/** The causes that a material makes likelier, most first. */
export function likelierCauses(material: Material, causes: Guide['causes']): readonly LikelierCause[] {
  const condition = material.kind;
  return causes
    .flatMap((cause) =>
      cause.movedBy.flatMap(({ when, timesOdds, because, source }) => {
        const { [condition]: test, ...also } = when;
        const isMeant = Array.isArray(test) ? test.includes(material.id) : test === material.id;
        return isMeant && timesOdds > 1 ? [{ cause: cause.id, timesOdds, also, because, source }] : [];
      }),
    )
    .sort((a, b) => b.timesOdds - a.timesOdds);
}
