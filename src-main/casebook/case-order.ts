import type { CaseColumn } from '../../src-core/contract/case-orders.ts';

/** By what each column of the list is sorted; printers and spools by what they are called today. */
export const ORDER_COLUMNS: Readonly<Record<CaseColumn, OrderColumn>> = {
  number: { of: 'cases.number', firstDown: true },
  opened: { of: 'cases.opened_at', firstDown: true },
  closed: { of: 'cases.closed_at', firstDown: true },
  printer: { of: 'printers.label', firstDown: false },
  spool: { of: 'spools.label', firstDown: false },
  profile: { of: 'cases.profile', firstDown: false },
  // A list in JSON: cases without a tag, "[]", come last from A to Z.
  tags: { of: 'cases.tags_json', firstDown: false },
  complaint: { of: 'cases.complaint', firstDown: false },
  cause: { of: 'cases.cause_label', firstDown: false },
  state: { of: 'cases.state', firstDown: false },
  by: { of: 'cases.opened_by', firstDown: false },
  minutes: { of: 'cases.minutes_lost', firstDown: true },
  grams: { of: 'cases.grams_scrapped', firstDown: true },
};

interface OrderColumn {
  readonly of: `${'cases' | 'printers' | 'spools'}.${string}`;
  /** Figures are looked at from the highest down first, names from A on; of alike ones the newest comes first then. */
  readonly firstDown: boolean;
}

/** The order as SQL, each form the way or the way back of one index. */
export function inOrder({ of, firstDown }: OrderColumn, isDown: boolean): string {
  const way = isDown ? 'desc' : 'asc';
  if (of === 'cases.number') return `cases.number ${way}`;
  return `${of} ${way}, cases.number ${isDown === firstDown ? 'desc' : 'asc'}`;
}
