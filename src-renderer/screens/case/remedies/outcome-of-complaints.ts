import type { Outcome } from '../../../../src-core/contract/case-event.ts';

/** What is said of each complaint after a remedy: gone or not; left out while nothing was said. */
export type SaidOfComplaints = Readonly<Record<string, boolean>>;

/**
 * The outcomes that what was said of the complaints leaves open; none until all of them were looked at. A case is cured when
 * all are gone, never when one is.
 */
export function outcomesLeft(complaints: readonly string[], isGone: SaidOfComplaints): readonly Outcome[] {
  if (complaints.some((id) => isGone[id] === undefined)) return [];
  const gone = complaints.filter((id) => isGone[id]).length;
  if (gone === complaints.length) return ['cured'];
  return gone > 0 ? ['partly', 'worse'] : ['better', 'not-cured', 'worse'];
}
