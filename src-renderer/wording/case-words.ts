import type { CaseState, ListedState } from '../../src-core/contract/case-view.ts';
import type { Outcome } from '../../src-core/contract/case-event.ts';
import { m } from '../messages/en/case-words.ts';

/** Where a case stands, as people at the bench say it. */
export const STATE_WORDS: Readonly<Record<ListedState, string>> = {
  'stop-now': m.dangerCheckToBeAnswered(),
  'make-safe': m.toBeMadeSafeFirst(),
  checking: m.checking(),
  verdict: m.choosingWhatToDo(),
  remedy: m.remedyUnderWay(),
  verification: m.remedyDoneToBeChecked(),
  closing: m.curedToBeClosed(),
  closed: m.closed(),
  parked: m.parked(),
  'handed-over': m.handedOver(),
  merged: m.merged(),
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
  cured: m.cured(),
  better: m.betterNotCured(),
  partly: m.helpedInPart(),
  'came-back': m.cameBackAfterAWhile(),
  'not-cured': m.notCured(),
  worse: m.worse(),
};

const MACHINE_WORDS: Readonly<Record<string, string>> = {
  any: m.machineInAnyState(),
  off: m.machineOffAndUnplugged(),
  cold: m.machineCold(),
  'motors-off': m.motorsSwitchedOff(),
  hot: m.machineHot(),
  printing: m.machinePrinting(),
  opened: m.machineOffAndOpened(),
  'part-in-hand': m.onlyThePartIsNeeded(),
};

/** What the machine must be doing during a check. */
export function machineWords(machine: string): string {
  return MACHINE_WORDS[machine] ?? machine;
}

const KIND_WORDS: Readonly<Record<string, string>> = {
  sign: m.lookOrListen(),
  pattern: m.whenAndWhere(),
  comparison: m.compare(),
  'hand-test': m.tryByHand(),
  measurement: m.measure(),
};

/** What sort of check it is. */
export function kindWords(kind: string): string {
  return KIND_WORDS[kind] ?? kind;
}

/** Places in the order in which complaints are met most, with the words for them. */
export const PLACE_WORDS: readonly { readonly id: string; readonly label: string }[] = [
  { id: 'walls-and-tops', label: m.wallsAndTops() },
  { id: 'first-layer', label: m.firstLayer() },
  { id: 'seams-and-strings', label: m.seamsAndStrings() },
  { id: 'shape-and-size', label: m.shapeAndSize() },
  { id: 'bonds-and-strength', label: m.layerAdhesionAndStrength() },
  { id: 'free-air', label: m.extrudingIntoAir() },
  { id: 'loading-and-purge', label: m.loadingAndPurge() },
  { id: 'spool-and-feed', label: m.spoolAndFilamentPath() },
  { id: 'hot-end-and-nozzle', label: m.hotEndAndNozzle() },
  { id: 'motion-and-noise', label: m.motionAndNoise() },
  { id: 'temperatures-and-alarms', label: m.temperaturesAndAlarms() },
  { id: 'electrics-and-controls', label: m.electricsAndControls() },
  { id: 'multi-material', label: m.severalMaterialsOrTools() },
  { id: 'profile-and-file', label: m.profileAndJobFile() },
  { id: 'part-in-service', label: m.partInUse() },
];

export function placeWords(place: string): string {
  return PLACE_WORDS.find((one) => one.id === place)?.label ?? place;
}

/** What a check is worth: minutes it saves on average, its own time taken off. */
export function worthWords(netValueOfInformationMinutes: number): string {
  const whole = Math.round(netValueOfInformationMinutes);
  return whole >= 1 ? m.savesAboutMin({ whole }) : m.costsMoreThanItSaves();
}
