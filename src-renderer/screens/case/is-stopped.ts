import type { CaseView } from '../../../src-core/contract/case-view.ts';

/** A danger sign is there that nobody qualified has taken over yet: the case can be neither closed nor parked. */
export function isUnderDanger({ stopped }: Pick<CaseView, 'stopped'>): boolean {
  return stopped !== null && stopped.takenOverBy === null;
}

/** After a danger sign nothing is asked and nothing proposed until somebody qualified takes over. */
export function isStopped({ state, stopped }: Pick<CaseView, 'state' | 'stopped'>): boolean {
  return isUnderDanger({ stopped }) && (state === 'checking' || state === 'verdict');
}
