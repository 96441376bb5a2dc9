import { codeOf } from '../file-trouble.ts';

/** What keeps a database from being used. Only `away` passes by itself. */
export type PostgresTrouble = 'away' | 'busy' | 'full' | 'read-only' | 'no-entry' | 'no-database' | 'other';

export interface PostgresFault {
  readonly kind: PostgresTrouble;
  /** What is the matter, in words that end a sentence. */
  readonly words: string;
}

const UNREACHABLE = new Map([
  ['ECONNREFUSED', 'nothing answers at that address'],
  ['ENOENT', 'there is no such socket'],
  ['EACCES', 'its socket may not be opened by this user'],
  ['ENOTFOUND', 'the name of its machine is not known'],
  ['EAI_AGAIN', 'the name of its machine cannot be looked up'],
  ['EHOSTUNREACH', 'its machine cannot be reached'],
  ['ENETUNREACH', 'its network cannot be reached'],
  ['ETIMEDOUT', 'its machine does not answer'],
  ['ECONNRESET', 'the connection broke off'],
  ['EPIPE', 'the connection broke off'],
]);
/** What `pg` says where it gives no code. */
const BROKEN_OFF =
  /connection terminated|not queryable|connection error|has been discarded|timeout expired|read timeout|client was closed/i;

/** Sorts an error of the database by what somebody can do about it. */
export function postgresFault(error: unknown): PostgresFault {
  const code = codeOf(error);
  const message = error instanceof Error ? error.message : String(error);
  const unreachable = UNREACHABLE.get(code);
  if (unreachable) return { kind: 'away', words: unreachable };
  if (/exceeded when trying to connect/.test(message))
    return { kind: 'busy', words: 'too much is being asked of it at once' };
  switch (code) {
    case '57P01':
    case '57P02':
      return { kind: 'away', words: 'it was stopped' };
    case '57P03':
      return { kind: 'away', words: 'it is only just starting, or stopping' };
    case '53300':
      return { kind: 'away', words: 'it has as many connections as it allows' };
    case '53100':
      return { kind: 'full', words: 'its disk is full' };
    case '25006':
      return { kind: 'read-only', words: 'it may only be read at present' };
    case '28P01':
    case '28000':
      return { kind: 'no-entry', words: 'it does not let this user in with this password' };
    case '42501':
      return { kind: 'no-entry', words: `this user may not do that there (${message})` };
    case '3D000':
      return { kind: 'no-database', words: 'there is no database of that name' };
    // Two that wait for each other, or see each other's half: one writer at a time rules it out among stations, not of others.
    case '40001':
    case '40P01':
      return { kind: 'busy', words: 'somebody else was writing the same' };
    case '55P03':
    case '57014':
    case '25P03':
      return { kind: 'busy', words: 'somebody else has been writing for too long' };
    default:
      break;
  }
  if (code.startsWith('08') || BROKEN_OFF.test(message))
    return { kind: 'away', words: 'the connection broke off' };
  return { kind: 'other', words: code && !message.includes(code) ? `${message} (${code})` : message };
}
