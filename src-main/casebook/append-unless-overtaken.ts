import type { CasebookDb } from './casebook.ts';

/** A write that rests on what its caller has seen. */
export interface Append<T> {
  /** The revision that the caller looked at; 0 where there was nothing yet. */
  readonly revision: number;
  /** The revision that stands there now; 0 where there is nothing. */
  readonly standsAt: (trx: CasebookDb) => Promise<number>;
  readonly write: (trx: CasebookDb) => Promise<T>;
}

/**
 * The one optimistic append, of cases, spools and shop records alike: looks and writes in one transaction. Answers "stale",
 * with nothing written, where another hand was there since the caller looked. What `write` throws takes all of it back.
 */
export function appendUnlessOvertaken<T>(
  db: CasebookDb,
  { revision, standsAt, write }: Append<T>,
): Promise<'stale' | { readonly written: T }> {
  return db
    .transaction()
    .execute(async (trx) => ((await standsAt(trx)) === revision ? { written: await write(trx) } : 'stale'));
}
