import type { CaseState, ListedState } from '../../src-core/contract/case-view.ts';
import type { Outcome } from '../../src-core/contract/case-event.ts';

/** Where a case stands, as people at the bench say it. */
export const STATE_WORDS: Readonly<Record<ListedState, string>> = {
  'stop-now': 'Danger check to be answered',
  'make-safe': 'To be made safe first',
  checking: 'Checking',
  verdict: 'Choosing what to do',
  remedy: 'Remedy under way',
  verification: 'Remedy done, to be checked',
  closing: 'Cured, to be closed',
  closed: 'Closed',
  parked: 'Parked',
  'handed-over': 'Handed over',
  merged: 'Merged',
};

/** All states in which a case still waits for somebody. */
export const OPEN_STATES: readonly CaseState[] = [
  'stop-now',
  'make-safe',
  'checking',
  'verdict',
  'remedy',
  'verification',
  'closing',
  'parked',
  'handed-over',
];

export const OUTCOME_WORDS: Readonly<Record<Outcome, string>> = {
  cured: 'Cured',
  better: 'Better, not cured',
  partly: 'Helped in part',
  'came-back': 'Came back after a while',
  'not-cured': 'Not cured',
  worse: 'Worse',
};

const MACHINE_WORDS: Readonly<Record<string, string>> = {
  any: 'Machine in any state',
  off: 'Machine off and unplugged',
  cold: 'Machine cold',
  'motors-off': 'Motors switched off',
  hot: 'Machine hot',
  printing: 'Machine printing',
  opened: 'Machine off and opened',
  'part-in-hand': 'Only the part is needed',
};

/** What the machine must be doing during a check. */
export function machineWords(machine: string): string {
  return MACHINE_WORDS[machine] ?? machine;
}

const KIND_WORDS: Readonly<Record<string, string>> = {
  sign: 'Look or listen',
  pattern: 'When and where',
  comparison: 'Compare',
  'hand-test': 'Try by hand',
  measurement: 'Measure',
};

/** What sort of check it is. */
export function kindWords(kind: string): string {
  return KIND_WORDS[kind] ?? kind;
}

/** Places in the order in which complaints are met most, with the words for them. */
export const PLACE_WORDS: readonly { readonly id: string; readonly label: string }[] = [
  { id: 'walls-and-tops', label: 'Walls and tops' },
  { id: 'first-layer', label: 'First layer' },
  { id: 'seams-and-strings', label: 'Seams and strings' },
  { id: 'shape-and-size', label: 'Shape and size' },
  { id: 'bonds-and-strength', label: 'Layer adhesion and strength' },
  { id: 'free-air', label: 'Extruding into air' },
  { id: 'loading-and-purge', label: 'Loading and purge' },
  { id: 'spool-and-feed', label: 'Spool and filament path' },
  { id: 'hot-end-and-nozzle', label: 'Hot end and nozzle' },
  { id: 'motion-and-noise', label: 'Motion and noise' },
  { id: 'temperatures-and-alarms', label: 'Temperatures and alarms' },
  { id: 'electrics-and-controls', label: 'Electrics and controls' },
  { id: 'multi-material', label: 'Several materials or tools' },
  { id: 'profile-and-file', label: 'Profile and job file' },
  { id: 'part-in-service', label: 'Part in use' },
];

export function placeWords(place: string): string {
  return PLACE_WORDS.find((one) => one.id === place)?.label ?? place;
}

/** What a check is worth: minutes it saves on average, its own time taken off. */
export function worthWords(netValueOfInformationMinutes: number): string {
  const whole = Math.round(netValueOfInformationMinutes);
  return whole >= 1 ? `saves about ${whole} min` : 'costs more than it saves';
}
