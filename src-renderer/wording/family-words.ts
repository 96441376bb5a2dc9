import { m } from '../messages/en/family-words.ts';

/** Families of causes and remedies, in the order in which they are met most. */
export const FAMILY_WORDS: readonly { readonly id: string; readonly label: string }[] = [
  { id: 'moisture', label: m.moistureAndStorage() },
  { id: 'blockage', label: m.blockedPathOfTheMelt() },
  { id: 'feed', label: m.extruderAndFilamentPath() },
  { id: 'filament', label: m.filamentItself() },
  { id: 'temperature', label: m.temperatures() },
  { id: 'cooling', label: m.cooling() },
  { id: 'first-layer', label: m.firstLayerAndBed() },
  { id: 'motion', label: m.motion() },
  { id: 'settings', label: m.settingsAndSlicing() },
  { id: 'electrics', label: m.electricsAndControls() },
  { id: 'multi-material', label: m.severalMaterials() },
  { id: 'geometry', label: m.partAndModel() },
  { id: 'people', label: m.handling() },
  { id: 'service', label: m.partInUse() },
  { id: 'unknown', label: m.notInThisGuide() },
];

export function familyWords(family: string): string {
  return FAMILY_WORDS.find((one) => one.id === family)?.label ?? family;
}
