import type { CasebookDb } from '../casebook.ts';
import type { CaseSearch } from './case-search.ts';
import { sqliteCaseSearch } from './sqlite-case-search.ts';

/** The index of the engine that this casebook is kept by: one so far. */
export function caseSearchOf(_db: CasebookDb): CaseSearch {
  return sqliteCaseSearch;
}
