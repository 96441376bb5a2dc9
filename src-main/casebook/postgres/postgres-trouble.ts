import { casebookTrouble } from '../../../src-core/words/en/casebook-trouble.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { codeOf } from '../file-trouble.ts';
import { SaidError } from '../../../src-core/words/said-error.ts';

/** What keeps a database from being used. Only `away` passes by itself. */
export type PostgresTrouble = 'away' | 'busy' | 'full' | 'read-only' | 'no-entry' | 'no-database' | 'other';

export interface PostgresFault {
  readonly kind: PostgresTrouble;
  /** What is the matter, as the end of a sentence. Words where only the database has some. */
  readonly why: string | Message;
}

const UNREACHABLE: ReadonlyMap<string, () => Message> = new Map([
  ['ECONNREFUSED', casebookTrouble.nothingAnswers],
  ['ENOENT', casebookTrouble.noSocket],
  ['EACCES', casebookTrouble.socketShut],
  ['ENOTFOUND', casebookTrouble.machineNotFound],
  ['EAI_AGAIN', casebookTrouble.machineNotLookedUp],
  ['EHOSTUNREACH', casebookTrouble.machineNotReached],
  ['ENETUNREACH', casebookTrouble.networkNotReached],
  ['ETIMEDOUT', casebookTrouble.machineSilent],
  ['ECONNRESET', casebookTrouble.brokeOff],
  ['EPIPE', casebookTrouble.brokeOff],
]);
/** What `pg` says where it gives no code. */
const BROKEN_OFF =
  /connection terminated|not queryable|connection error|has been discarded|timeout expired|read timeout|client was closed/i;

/** Sorts an error of the database by what somebody can do about it. */
export function postgresFault(error: unknown): PostgresFault {
  const code = codeOf(error);
  const message = error instanceof Error ? error.message : String(error);
  const unreachable = UNREACHABLE.get(code);
  if (unreachable) return { kind: 'away', why: unreachable() };
  if (/exceeded when trying to connect/.test(message)) return { kind: 'busy', why: casebookTrouble.busy() };
  switch (code) {
    case '57P01':
    case '57P02':
      return { kind: 'away', why: casebookTrouble.stopped() };
    case '57P03':
      return { kind: 'away', why: casebookTrouble.onlyStarting() };
    case '53300':
      return { kind: 'away', why: casebookTrouble.tooManyConnections() };
    case '53100':
      return { kind: 'full', why: casebookTrouble.itsDiskFull() };
    case '25006':
      return { kind: 'read-only', why: casebookTrouble.onlyRead() };
    case '28P01':
    case '28000':
      return { kind: 'no-entry', why: casebookTrouble.notLetIn() };
    case '42501':
      return { kind: 'no-entry', why: casebookTrouble.mayNotThere({ words: message }) };
    case '3D000':
      return { kind: 'no-database', why: casebookTrouble.noDatabase() };
    // Two that wait for each other, or see each other's half: one writer at a time rules it out among stations, not of others.
    case '40001':
    case '40P01':
      return { kind: 'busy', why: casebookTrouble.writingSame() };
    case '55P03':
    case '57014':
    case '25P03':
      return { kind: 'busy', why: casebookTrouble.writingTooLong() };
    default:
      break;
  }
  if (code.startsWith('08') || BROKEN_OFF.test(message))
    return { kind: 'away', why: casebookTrouble.brokeOff() };
  if (error instanceof SaidError) return { kind: 'other', why: error.said };
  const isNamed = code === '' || message.includes(code);
  return { kind: 'other', why: isNamed ? message : casebookTrouble.withCode({ words: message, code }) };
}
