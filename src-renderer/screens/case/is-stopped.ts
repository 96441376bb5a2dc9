import type { CaseView } from '../../../src-core/contract/case-view.ts';

/** After a danger sign nothing is asked and nothing proposed until somebody qualified takes over. */
export function isStopped({ state, stopped }: Pick<CaseView, 'state' | 'stopped'>): boolean {
  return stopped !== null && stopped.takenOverBy === null && (state === 'checking' || state === 'verdict');
}
