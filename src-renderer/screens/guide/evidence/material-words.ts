import type { Guide } from '../../../../src-core/contract/guide-view.ts';
import type { TemperatureUnit } from '../../../../src-core/contract/display-choices.ts';
import { propertyFigure } from '../../../../src-core/words/guide-figures.ts';
import { wordsIn } from '../../../wording/words-in.ts';
import { m } from '../../../messages/en/material-words.ts';

type Material = Guide['materials'][number];
type PropertyId = keyof Material['properties'];

/** Properties of a material in the order of the sheet, with the words for them. */
export const PROPERTY_WORDS: readonly { readonly id: PropertyId; readonly label: string }[] = [
  { id: 'dryingTempC', label: m.dryingTemperature() },
  { id: 'dryingHours', label: m.dryingTime() },
  { id: 'dryingMaxTempC', label: m.neverDryAbove() },
  { id: 'dryingLimitWhy', label: m.whyNotAbove() },
  { id: 'residualMoisturePercent', label: m.waterLeftWhenFitToPrint() },
  { id: 'equilibriumWaterPercent', label: m.waterInRoomAir() },
  { id: 'saturationWaterPercent', label: m.waterAtMost() },
  { id: 'nozzleTempC', label: m.nozzleTemperature() },
  { id: 'plateTempC', label: m.bedTemperature() },
  { id: 'chamberTempC', label: m.chamberTemperature() },
  { id: 'partFanPercent', label: m.partFan() },
  { id: 'surface', label: m.buildPlate() },
  { id: 'smallestNozzleMm', label: m.smallestNozzleSize() },
  { id: 'abrasiveness', label: m.wearOnNozzleAndPath() },
  { id: 'effectOnMoisture', label: m.effectOnMoisture() },
  { id: 'effectOnStrength', label: m.effectOnStrength() },
  { id: 'shrinkagePercent', label: m.shrinkage() },
  { id: 'glassTransitionC', label: m.glassTransition() },
  { id: 'heatDeflectionC', label: m.heatDeflectionLightLoad045() },
  { id: 'heatDeflection18C', label: m.heatDeflectionLoaded18MPa() },
  { id: 'continuousUseC', label: m.continuousUseInAir() },
  { id: 'shoreHardnessA', label: m.shoreHardness() },
  { id: 'creep', label: m.creepUnderLoad() },
  { id: 'impact', label: m.impact() },
  { id: 'ultraviolet', label: m.ultravioletLight() },
  { id: 'chemicals', label: m.chemicals() },
  { id: 'difficulty', label: m.printingIt() },
];

/** A property's figure or words in the reader's unit: "45 to 55 °C", or null where there is none. */
export function propertyWords(material: Material, id: PropertyId, unit: TemperatureUnit): string | null {
  const figure = propertyFigure(material, id);
  return figure === null ? null : wordsIn(figure, unit);
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
