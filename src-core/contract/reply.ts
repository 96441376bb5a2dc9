import type { Words } from '../words/message.ts';

/** Codes of expected failures; every call may answer with any of them. */
export const REPLY_ERRORS = [
  'bad-request',
  'forbidden',
  'not-found',
  'stale',
  'refused',
  'casebook-unavailable',
  'knowledge-faulty',
  'internal',
] as const;
export type ReplyErrorCode = (typeof REPLY_ERRORS)[number];

export interface ReplyError {
  readonly code: ReplyErrorCode;
  /** What happened and what would be right, in English: for logs and the command line. On a screen, in its own language. */
  readonly message: string;
  /** The same as ids with values, where it has any; screens say this. */
  readonly said?: Words | undefined;
  /** The current state of things where the caller's was stale. */
  readonly current?: unknown;
}

/** Every call is answered with one of these; nothing is thrown across a host's border. */
export type Reply<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: ReplyError };
