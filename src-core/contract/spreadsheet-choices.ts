/** What a column of a shop's spreadsheet can hold of a case, in the order in which it is asked for. */
export const SPREADSHEET_FIELDS = [
  'opened',
  'complaint',
  'cause',
  'printer',
  'spool',
  'profile',
  'tags',
  'closed',
  'openedBy',
  'lost',
  'grams',
  'note',
  'reference',
] as const;
export type SpreadsheetField = (typeof SPREADSHEET_FIELDS)[number];

/** Without these a row is no case. */
export const NEEDED_FIELDS: readonly SpreadsheetField[] = ['opened', 'complaint', 'cause'];

/** How a date like 3/4/2026 is meant, and what the time lost is counted in. */
export const DATE_ORDERS = ['day-first', 'month-first'] as const;
export const LOST_UNITS = ['minutes', 'hours'] as const;
