import { eventsInForce, type LoggedEvent } from './logged-event.ts';

/** A wait that was begun and has not been ended by hand; it may be over. Times are ISO 8601, UTC. */
export interface RunningTimer {
  readonly since: string;
  readonly until: string;
}

/** What ends the remedy that a wait belongs to, and the wait with it; a case that rests keeps it. */
const ENDS = new Set<string>([
  'timer-stopped',
  'remedy-chosen',
  'remedy-left',
  'could-not-be-done',
  'remedy-done',
  'verified',
  'closed',
  'made-safe',
  'merged-into',
]);

/** The wait that a case is in, read off its log; null where there is none. */
export function runningTimer(log: readonly LoggedEvent[]): RunningTimer | null {
  const last = eventsInForce(log).findLast(({ event }) => event.kind === 'timer-set' || ENDS.has(event.kind));
  if (last?.event.kind !== 'timer-set') return null;
  return { since: last.at, until: new Date(Date.parse(last.at) + last.event.minutes * 60_000).toISOString() };
}
