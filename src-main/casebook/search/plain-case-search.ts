import { sql } from 'kysely';
import type { CaseSearch } from './case-search.ts';
import { findByFilter } from './find-by-filter.ts';

/**
 * The search of an engine that has no index yet (PostgreSQL): the words of every case that fits the filter are looked
 * through, so that a text is found within a word as well, and all that fit are counted. Right, but not quick with very many cases.
 */
export const plainCaseSearch: CaseSearch = {
  find: (db, filter, sought) =>
    findByFilter(db, filter, (cases) => {
      let query = cases;
      for (const { texts, printerIds, number } of sought)
        query = query.where((eb) =>
          eb.or([
            ...texts.map((text) => isIn('cases.search_text', text)),
            ...texts.map((text) =>
              eb('cases.spool_id', 'in', (of) =>
                of.selectFrom('spools').select('spools.id').where(isIn('spools.label', text)),
              ),
            ),
            ...(printerIds.length > 0 ? [eb('cases.printer_id', 'in', [...printerIds])] : []),
            ...(number === null ? [] : [eb('cases.number', '=', number)]),
          ]),
        );
      const { cause } = filter;
      return cause === null
        ? query
        : query.where('cases.id', 'in', (eb) =>
            eb.selectFrom('case_causes').select('case_causes.case_id').where('case_causes.cause', '=', cause),
          );
    }),
};

function isIn(column: 'cases.search_text' | 'spools.label', text: string) {
  const escaped = text.replace(/[\\%_]/g, (character) => `\\${character}`);
  return sql<boolean>`lower(${sql.ref(column)}) like ${`%${escaped}%`} escape '\\'`;
}
