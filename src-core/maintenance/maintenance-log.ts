import type { CounterReading, MaintenanceEvent } from '../contract/maintenance-view.ts';
import { printedStretches, type PrintedStretch } from '../recurrence/print-hours.ts';
import { faults } from '../words/en/faults.ts';
import type { Message } from '../words/message.ts';

export interface LoggedMaintenance {
  readonly seq: number;
  /** When it happened, ISO 8601, UTC. */
  readonly at: string;
  readonly event: MaintenanceEvent;
}

/** An entry as it stands with what was added to it later. */
export interface MaintenanceEntry {
  readonly seq: number;
  readonly at: string;
  /** Null: the counters were read, nothing else. */
  readonly task: string | null;
  readonly by: string | null;
  readonly part: string;
  readonly note: string;
  readonly reading: CounterReading | null;
  readonly isUndone: boolean;
}

/** Folds a printer's log, oldest first. */
export function entriesOf(log: readonly LoggedMaintenance[]): readonly MaintenanceEntry[] {
  const entries = new Map<number, MaintenanceEntry>();
  for (const { seq, at, event } of log) {
    switch (event.kind) {
      case 'done': {
        const { task, by, part, note, reading } = event;
        entries.set(seq, { seq, at, task, by, part, note, reading, isUndone: false });
        break;
      }
      case 'counters-read': {
        const { reading } = event;
        entries.set(seq, { seq, at, task: null, by: null, part: '', note: '', reading, isUndone: false });
        break;
      }
      case 'detailed': {
        const before = entries.get(event.of);
        const { by, part, note, reading } = event;
        if (before) entries.set(event.of, { ...before, by, part, note, reading });
        break;
      }
      case 'undone': {
        const before = entries.get(event.of);
        if (before) entries.set(event.of, { ...before, isUndone: true });
      }
    }
  }
  return [...entries.values()];
}

/** Why an event does not fit the log as it stands, or null. */
export function faultOfMaintenance(
  entries: readonly MaintenanceEntry[],
  event: MaintenanceEvent,
): Message | null {
  if (event.kind === 'done' || event.kind === 'counters-read') return null;
  const entry = entries.find(({ seq }) => seq === event.of);
  if (!entry) return faults.notInPrinterLog();
  if (entry.isUndone) return faults.takenBackAlready();
  if (event.kind === 'detailed' && entry.task === null) return faults.readingNoMaintenance();
  return null;
}

/** The last time a task was done: by when it happened, not by when it was written. */
export function lastDone(entries: readonly MaintenanceEntry[], task: string): MaintenanceEntry | null {
  const done = entries.filter((one) => one.task === task && !one.isUndone);
  return done.toSorted((a, b) => a.at.localeCompare(b.at) || a.seq - b.seq).at(-1) ?? null;
}

/** What one of a printer's own counters ran on by, between its readings; a fall counts as a counter that began again. */
export function counterStretches(
  entries: readonly MaintenanceEntry[],
  counter: 'prints' | 'metres',
): readonly PrintedStretch[] {
  const readings = entries.flatMap(({ at, reading, isUndone }) => {
    const total = reading?.[counter] ?? null;
    return total === null || isUndone ? [] : [{ printerId: counter, at, totalHours: total }];
  });
  return printedStretches(readings).get(counter) ?? [];
}

/** What the counters showed last. */
export function lastCounters(
  entries: readonly MaintenanceEntry[],
): Pick<CounterReading, 'prints' | 'metres'> {
  const inForce = entries.filter(({ isUndone }) => !isUndone).toSorted((a, b) => a.at.localeCompare(b.at));
  const last = (counter: 'prints' | 'metres') =>
    inForce.findLast(({ reading }) => (reading?.[counter] ?? null) !== null)?.reading?.[counter] ?? null;
  return { prints: last('prints'), metres: last('metres') };
}
