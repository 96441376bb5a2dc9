import { messages } from '../messages.ts';

export const m = messages('familyWords', {
  blockedPathOfTheMelt: 'Blocked path of the melt',
  cooling: 'Cooling',
  electricsAndControls: 'Electrics and controls',
  extruderAndFilamentPath: 'Extruder and filament path',
  filamentItself: 'Filament itself',
  firstLayerAndBed: 'First layer and bed',
  handling: 'Handling',
  moistureAndStorage: 'Moisture and storage',
  motion: 'Motion',
  notInThisGuide: 'Not in this guide',
  partAndModel: 'Part and model',
  partInUse: 'Part in use',
  settingsAndSlicing: 'Settings and slicing',
  severalMaterials: 'Several materials',
  temperatures: 'Temperatures',
});
