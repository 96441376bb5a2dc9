/** Columns that the casebook's list can be sorted by. */
export const CASE_COLUMNS = [
  'number',
  'opened',
  'closed',
  'printer',
  'spool',
  'profile',
  'tags',
  'complaint',
  'cause',
  'state',
  'by',
  'minutes',
  'grams',
] as const;
export type CaseColumn = (typeof CASE_COLUMNS)[number];

/** Every order of the list: a column, and whether it goes from the highest down. Ids stand in addresses and kept views. */
export const CASE_ORDERS = {
  newest: { column: 'opened', isDown: true },
  oldest: { column: 'opened', isDown: false },
  costliest: { column: 'minutes', isDown: true },
  cheapest: { column: 'minutes', isDown: false },
  'number-down': { column: 'number', isDown: true },
  'number-up': { column: 'number', isDown: false },
  'closed-down': { column: 'closed', isDown: true },
  'closed-up': { column: 'closed', isDown: false },
  'printer-up': { column: 'printer', isDown: false },
  'printer-down': { column: 'printer', isDown: true },
  'spool-up': { column: 'spool', isDown: false },
  'spool-down': { column: 'spool', isDown: true },
  'profile-up': { column: 'profile', isDown: false },
  'profile-down': { column: 'profile', isDown: true },
  'tags-up': { column: 'tags', isDown: false },
  'tags-down': { column: 'tags', isDown: true },
  'complaint-up': { column: 'complaint', isDown: false },
  'complaint-down': { column: 'complaint', isDown: true },
  'cause-up': { column: 'cause', isDown: false },
  'cause-down': { column: 'cause', isDown: true },
  'state-up': { column: 'state', isDown: false },
  'state-down': { column: 'state', isDown: true },
  'by-up': { column: 'by', isDown: false },
  'by-down': { column: 'by', isDown: true },
  'grams-down': { column: 'grams', isDown: true },
  'grams-up': { column: 'grams', isDown: false },
} as const satisfies Record<string, { readonly column: CaseColumn; readonly isDown: boolean }>;
export type CaseOrder = keyof typeof CASE_ORDERS;
export const CASE_ORDER_IDS = Object.keys(CASE_ORDERS) as [CaseOrder, ...CaseOrder[]];
