import type { CaseFilter } from '../../../src-core/contract/casebook-view.ts';
import type { CasebookDb } from '../casebook.ts';

/** One thing that is looked for: any of the texts will do, each from the beginning of a word on. */
export interface SoughtWords {
  /** Lower case; several words of one text stand side by side in the case. */
  readonly texts: readonly string[];
  /** Printers that one of the texts names today: any of their cases will do, too. */
  readonly printerIds: readonly string[];
  /** "#147" or "147": the case of that number. */
  readonly number: number | null;
}

/** Cases that a search found: one page of them, and how many there are. */
export interface CaseHits {
  /** Numbers of the cases of the page, in order. */
  readonly numbers: readonly number[];
  /** How many fit in each state as it is stored, whatever states the filter asks for. */
  readonly byState: ReadonlyMap<string, number>;
  /** There are more than were counted: counting ends at {@link MOST_COUNTED}. */
  readonly isMore: boolean;
}

/** Nobody reads further; a search that fits a million cases must not count them all at every letter. */
export const MOST_COUNTED = 10_000;

/** What was found: `open` counts the open cases by state, `all` every case, up to one more than are counted. */
export function hitsOf(numbers: readonly number[], open: ReadonlyMap<string, number>, all: number): CaseHits {
  const isMore = all > MOST_COUNTED;
  const stillOpen = [...open.values()].reduce((sum, count) => sum + count, 0);
  const closed = isMore ? MOST_COUNTED : all - stillOpen;
  return {
    numbers,
    byState: new Map([...open, ...(closed > 0 ? [['closed', closed] as const] : [])]),
    isMore,
  };
}

/**
 * The engine's index over the words of cases and what their spools are called today. It is kept up in the transaction that writes the
 * case: by triggers, on SQLite in an FTS5 table (`sqlite-case-search.ts`), on PostgreSQL in a tsvector under a GIN index
 * (`postgres-case-search.ts`).
 */
export interface CaseSearch {
  /**
   * Cases in which everything that is `sought` is found, and that fit the filter besides; null where nothing of either is in
   * the index (a search for a full stop): then every case fits.
   */
  find(db: CasebookDb, filter: CaseFilter, sought: readonly SoughtWords[]): Promise<CaseHits | null>;
}
