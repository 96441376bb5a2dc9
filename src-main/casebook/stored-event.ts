import { caseEventSchema } from '../../src-core/contract/case-event.ts';
import { timeSchema } from '../../src-core/contract/common.ts';
import { caseLogTexts } from '../../src-core/words/en/case-log.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import type { Message } from '../../src-core/words/message.ts';
import type { LoggedEvent } from '../../src-core/session/logged-event.ts';

const { m } = caseLogTexts;

/** A row of the log as it lies on the disk. */
export interface StoredRow {
  readonly seq: number;
  readonly at: string;
  readonly event_json: string;
  readonly by_initials?: string | null;
}

export interface StoredEvent {
  /** What the rest of the program works with. */
  readonly logged: LoggedEvent;
  /** Why the row cannot be read, where it cannot; then `logged` is a note that says so. */
  readonly fault: Message | null;
}

/**
 * Reads one row of a case's log. One that cannot be read (damaged, or of a version to come) is set aside: in its place
 * stands a note that names it, so that numbers and revisions stay as they are and everything else goes on. The row itself
 * is never changed, and an export carries it as it is.
 */
export function readStoredEvent({ by_initials, ...row }: StoredRow): StoredEvent {
  const { logged, fault } = readRow(row);
  return { logged: by_initials ? { ...logged, by: by_initials } : logged, fault };
}

function readRow({ seq, at, event_json }: StoredRow): StoredEvent {
  const time = timeSchema.safeParse(at).success ? at : '2000-01-01T00:00:00.000Z';
  let raw: unknown;
  try {
    raw = JSON.parse(event_json);
  } catch {
    return setAside(seq, time, m.notWhole());
  }
  const parsed = caseEventSchema.safeParse(raw);
  if (parsed.success) return { logged: { seq, at: time, event: parsed.data }, fault: null };
  if (raw === null || typeof raw !== 'object' || !('kind' in raw)) return setAside(seq, time, m.noKind());
  return setAside(seq, time, m.unknownKind({ kind: String(raw.kind).slice(0, 40) }));
}

function setAside(seq: number, at: string, fault: Message): StoredEvent {
  const said = m.setAside({ seq, why: fault });
  return { logged: { seq, at, event: { kind: 'noted', text: inEnglish(said) }, setAside: said }, fault };
}
