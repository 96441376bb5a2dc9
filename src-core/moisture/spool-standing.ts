import type { SPOOL_STANDINGS, SpoolReport } from '../contract/spool-life.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { undoneSpoolSeqs, type LoggedSpoolEvent } from './spool-life.ts';

/**
 * Whether to print with a spool now. A case that confirmed it as wet counts until it is dried, whatever was computed; what
 * cannot be dried with the dryer at hand is not to be used.
 */
export function standingOf({
  water,
  drying,
  foundWet,
}: Pick<SpoolReport, 'water' | 'drying' | 'foundWet'>): (typeof SPOOL_STANDINGS)[number] {
  const isTooWet = water?.verdict === 'over-limit' || water?.verdict === 'far-over-limit';
  if (!isTooWet && foundWet === null) {
    if (water === null) return 'not-known';
    return water.verdict === 'near-limit' ? 'near-limit' : 'fit';
  }
  return isTooWet && drying?.kind === 'cannot' ? 'do-not-use' : 'dry-first';
}

/** When a spool last came out of a dryer or was weighed dry; null where its log does not say so, or it is in the dryer. */
export function lastDriedAt(
  knowledge: Pick<Knowledge, 'places'>,
  log: readonly LoggedSpoolEvent[],
): string | null {
  const undone = undoneSpoolSeqs(log);
  let isDrying = false;
  let dried: string | null = null;
  for (const { seq, at, event } of log) {
    if (undone.has(seq)) continue;
    if (event.kind === 'weighed') dried = at;
    if (event.kind !== 'moved') continue;
    if (isDrying) dried = at;
    isDrying = knowledge.places.get(event.place)?.air === 'dryer';
  }
  return dried;
}
