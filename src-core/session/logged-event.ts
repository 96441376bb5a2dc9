import { HOST_ONLY_KINDS, type CaseEvent } from '../contract/case-event.ts';
import type { Message } from '../words/message.ts';

/** An event as the casebook holds it: numbered from 1 without gaps, with the time it was acknowledged (ISO 8601, UTC). */
export interface LoggedEvent {
  readonly seq: number;
  readonly at: string;
  readonly event: CaseEvent;
  /** Initials of whoever was signed in then; left out where nobody was, and before 27 November 2026. */
  readonly by?: string | undefined;
  /** Why the entry could not be read; `event` is a note in its place then. */
  readonly setAside?: Message | undefined;
}

/** Kinds that an undo passes over: they stand whatever is taken back. What the host writes is taken back by its own calls. */
const STANDING_KINDS: ReadonlySet<CaseEvent['kind']> = new Set(['opened', 'noted', ...HOST_ONLY_KINDS]);

/**
 * Sequence numbers of the events that an undo took back, the undo events left out.
 * Each `undone` takes back the latest event still in force that is not standing; with none left it does nothing.
 */
export function undoneSeqs(log: readonly LoggedEvent[]): ReadonlySet<number> {
  const inForce: number[] = [];
  const undone = new Set<number>();
  for (const { seq, event } of log) {
    if (event.kind === 'undone') {
      const last = inForce.pop();
      if (last !== undefined) undone.add(last);
    } else if (!STANDING_KINDS.has(event.kind)) {
      inForce.push(seq);
    }
  }
  return undone;
}

/** The events that are in force, in order, undo events and what they took back left out. */
export function eventsInForce(log: readonly LoggedEvent[]): readonly LoggedEvent[] {
  const undone = undoneSeqs(log);
  return log.filter(({ seq, event }) => event.kind !== 'undone' && !undone.has(seq));
}

/** Whether an undo would take anything back. */
export function hasUndoable(log: readonly LoggedEvent[]): boolean {
  return eventsInForce(log).some(({ event }) => !STANDING_KINDS.has(event.kind));
}

/** An event as it is written: what is implied when it is sent is said in the log, so that a later reader need not guess. */
export function asWritten(event: CaseEvent): CaseEvent {
  return event.kind === 'resumed' ? { ...event, to: 'where-it-was' } : event;
}
