import {
  factorsOf,
  MOST_CASES,
  ownExperience,
  printerExperience,
  type CauseExperience,
} from '../../src-core/learning/own-experience.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { Casebook } from '../casebook/casebook.ts';
import { closedMark, listConfirmed, type ConfirmedRow } from '../casebook/confirmed-case.repository.ts';
import type { ApplicationContext } from './application-context.ts';

/** The confirmed cases that count, read once while no case is closed or opened again. */
const keptRows = new WeakMap<Casebook, { readonly mark: string; readonly rows: readonly ConfirmedRow[] }>();
const keptResults = new WeakMap<readonly ConfirmedRow[], Map<string, readonly CauseExperience[]>>();

/** Closed cases of the shop, newest first: the demo's only while there are none of its own. */
export async function confirmedRows({
  casebook,
}: Pick<ApplicationContext, 'casebook'>): Promise<readonly ConfirmedRow[]> {
  const mark = await closedMark(casebook.db);
  const kept = keptRows.get(casebook);
  if (kept?.mark === mark) return kept.rows;
  const all = await listConfirmed(casebook.db, MOST_CASES);
  const own = all.filter(({ isDemo }) => !isDemo);
  const rows = own.length > 0 ? own : all;
  keptRows.set(casebook, { mark, rows });
  return rows;
}

/** What cases closed up to `until` (ISO 8601; null: all) say of each cause, for the shop or one printer. */
export function experienceUntil(
  knowledge: Knowledge,
  rows: readonly ConfirmedRow[],
  until: string | null,
  printerId: string | null,
): readonly CauseExperience[] {
  const kept = keptResults.get(rows) ?? new Map<string, readonly CauseExperience[]>();
  keptResults.set(rows, kept);
  const key = JSON.stringify([knowledge.version, until, printerId]);
  const known = kept.get(key);
  if (known) return known;
  const cases = countedUntil(rows, until);
  const made =
    printerId === null ? ownExperience(knowledge, cases) : printerExperience(knowledge, cases, printerId);
  kept.set(key, made);
  return made;
}

/** Of closed cases those that were closed by then. */
export function countedUntil(rows: readonly ConfirmedRow[], until: string | null): readonly ConfirmedRow[] {
  return until === null ? rows : rows.filter(({ closedAt }) => closedAt <= until);
}

/** Factors that a case opened now goes by; undefined where own cases say nothing noticeable. */
export function factorsForOpening(
  knowledge: Knowledge,
  rows: readonly ConfirmedRow[],
  until: string | null,
  printerId: string | null,
): Readonly<Record<string, number>> | undefined {
  const factors = factorsOf(experienceUntil(knowledge, rows, until, printerId));
  return Object.keys(factors).length > 0 ? factors : undefined;
}
