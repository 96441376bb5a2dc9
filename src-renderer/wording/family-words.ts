/** Families of causes and remedies, in the order in which they are met most. */
export const FAMILY_WORDS: readonly { readonly id: string; readonly label: string }[] = [
  { id: 'moisture', label: 'Moisture and storage' },
  { id: 'blockage', label: 'Blocked path of the melt' },
  { id: 'feed', label: 'Extruder and filament path' },
  { id: 'filament', label: 'Filament itself' },
  { id: 'temperature', label: 'Temperatures' },
  { id: 'cooling', label: 'Cooling' },
  { id: 'first-layer', label: 'First layer and bed' },
  { id: 'motion', label: 'Motion' },
  { id: 'settings', label: 'Settings and slicing' },
  { id: 'electrics', label: 'Electrics and controls' },
  { id: 'multi-material', label: 'Several materials' },
  { id: 'geometry', label: 'Part and model' },
  { id: 'people', label: 'Handling' },
  { id: 'service', label: 'Part in use' },
  { id: 'unknown', label: 'Not in this guide' },
];

export function familyWords(family: string): string {
  return FAMILY_WORDS.find((one) => one.id === family)?.label ?? family;
}
