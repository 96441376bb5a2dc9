import type { SpreadsheetField } from '../contract/spreadsheet-choices.ts';
import type { SpreadsheetMapping } from '../contract/spreadsheet-view.ts';
import type { Sheet } from './read-rows.ts';

/** What columns are commonly called, first the surest. */
const NAMES: Readonly<Record<SpreadsheetField, RegExp>> = {
  opened: /^(date|day|opened|when|reported)\b/i,
  closed: /^(closed|done|fixed|solved|finished)\b/i,
  complaint: /^(complaint|fault|problem|issue|symptom|what was wrong|defect|error)\b/i,
  cause: /^(cause|root cause|reason|diagnosis|it was)\b/i,
  printer: /^(printer|machine)\b/i,
  spool: /^(spool|filament|material)\b/i,
  profile: /^(profile|print profile|print settings)\b/i,
  tags: /^(tag|tags|labels?|keywords?)\b/i,
  openedBy: /^(who|initials|operator|by|opened by|reported by)\b/i,
  lost: /^(minutes|min|time lost|lost|downtime|hours|time)\b/i,
  grams: /^(grams|gram|g|scrap|waste|weight)\b/i,
  note: /^(note|notes|comment|comments|remark|remarks|remedy|cure|fix)\b/i,
  reference: /^(no\.?|nr\.?|number|id|ref|reference|ticket)\b/i,
};

/** What columns may hold, from what they are called and, for dates, from what stands in them. */
export function guessMapping({ columns, rows }: Sheet): SpreadsheetMapping {
  const taken = new Set<string>();
  const guessed: Partial<Record<SpreadsheetField, string>> = {};
  for (const [field, names] of Object.entries(NAMES) as [SpreadsheetField, RegExp][]) {
    const found = columns.find((name) => !taken.has(name) && names.test(name));
    if (found === undefined) continue;
    taken.add(found);
    guessed[field] = found;
  }
  const dates = rows.map(({ cells }) => cells.get(guessed.opened ?? '') ?? '');
  const isMonthFirst = dates.some((text) => Number(/^\d{1,2}\/(\d{1,2})\//.exec(text)?.[1] ?? 0) > 12);
  return {
    columns: guessed,
    dateOrder: isMonthFirst ? 'month-first' : 'day-first',
    lostUnit: /hour|\bh\b/i.test(guessed.lost ?? '') ? 'hours' : 'minutes',
    complaints: {},
    causes: {},
  };
}

/** Whether all columns of a mapping are in the file. */
export function fitsSheet({ columns }: SpreadsheetMapping, sheet: Sheet): boolean {
  const named = Object.values(columns);
  return named.length > 0 && named.every((name) => sheet.columns.includes(name));
}
