import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import type { Tablet } from './tablet.ts';

/** Whoever follows hears of a change within this; far more than it takes, and far less than a screen's own look. */
const HEARD_WITHIN_MS = 3000;

interface KeptCase {
  readonly caseId: string;
  readonly events: readonly { readonly seq: number; readonly event: CaseEvent }[];
}

/** Holds what is kept against what each tablet was told; each fault in words. */
export function faultsOf(
  tablets: readonly Tablet[],
  kept: readonly KeptCase[],
  numbers: readonly number[],
): string[] {
  const faults = tablets.flatMap(({ wrong }) => wrong);
  const byId = new Map(kept.map((one) => [one.caseId, one.events]));
  const claimed = new Set<string>();
  for (const { told } of tablets) {
    const lastSeq = new Map<string, number>();
    for (const { caseId, seq, event } of told) {
      const there = byId.get(caseId)?.find((one) => one.seq === seq)?.event;
      if (!there || !isSame(there, event)) faults.push(`lost: entry ${seq} of ${caseId}`);
      if (seq <= (lastSeq.get(caseId) ?? 0)) faults.push(`out of order: entry ${seq} of ${caseId}`);
      lastSeq.set(caseId, seq);
      if (claimed.has(`${caseId} ${seq}`)) faults.push(`told to two: entry ${seq} of ${caseId}`);
      claimed.add(`${caseId} ${seq}`);
    }
  }
  const notes = new Set<string>();
  for (const { caseId, events } of kept) {
    if (events.some(({ seq }, index) => seq !== index + 1)) faults.push(`a gap in ${caseId}`);
    for (const { event } of events) {
      const note = noteOf(event);
      if (note === null) continue;
      if (notes.has(note)) faults.push(`doubled: ${note}`);
      notes.add(note);
    }
  }
  const inOrder = numbers.toSorted((a, b) => a - b);
  if (inOrder.some((number, index) => number !== index + 1)) faults.push('case numbers are not 1, 2, 3 …');
  return [...faults, ...deafTo(tablets)];
}

/** What was told last of each case, every tablet that was listening without a break has heard of, at whatever station. */
function deafTo(tablets: readonly Tablet[]): string[] {
  const told = tablets.flatMap((tablet) => tablet.told).sort((a, b) => a.atMs - b.atMs);
  const last = [...new Map(told.map((one) => [one.caseId, one])).values()];
  return tablets.flatMap(({ followed }, index) =>
    last.flatMap(({ caseId, seq, sentMs, atMs }) => {
      const stream = followed.find(({ fromMs, toMs }) => fromMs < sentMs && toMs > atMs + HEARD_WITHIN_MS);
      if (!stream) return [];
      const isHeard =
        (stream.heardMs.get(caseId) ?? 0) >= sentMs ||
        stream.anythingMs.some((ms) => ms >= sentMs && ms <= atMs + HEARD_WITHIN_MS);
      return isHeard ? [] : [`tablet ${index} did not hear of entry ${seq} of ${caseId}`];
    }),
  );
}

function isSame(kept: CaseEvent, told: CaseEvent | 'opened'): boolean {
  if (told === 'opened') return kept.kind === 'opened';
  if (kept.kind !== told.kind || noteOf(kept) !== noteOf(told)) return false;
  return kept.kind !== 'answered' || (told.kind === 'answered' && kept.observation === told.observation);
}

function noteOf(event: CaseEvent): string | null {
  const words = event.kind === 'noted' ? event.text : 'note' in event ? event.note : null;
  return typeof words === 'string' && words.startsWith('tablet ') ? words : null;
}
