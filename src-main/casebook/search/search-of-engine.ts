import { SqliteAdapter } from 'kysely';
import type { CasebookDb } from '../casebook.ts';
import type { CaseSearch } from './case-search.ts';
import { postgresCaseSearch } from './postgres-case-search.ts';
import { sqliteCaseSearch } from './sqlite-case-search.ts';

/** The search of the engine that this casebook is kept by. */
export function caseSearchOf(db: CasebookDb): CaseSearch {
  return db.getExecutor().adapter instanceof SqliteAdapter ? sqliteCaseSearch : postgresCaseSearch;
}
