import {
  CASE_COLUMNS,
  CASE_ORDERS,
  type CaseColumn,
  type CaseOrder,
} from '../../../src-core/contract/case-orders.ts';

interface Column {
  /** Over the column. */
  readonly label: string;
  /** In the choice of columns, where the heading is too short to stand alone. */
  readonly name?: string;
  readonly isFigure?: boolean;
  /** The order that a press on the heading asks for first, and its words. */
  readonly first: readonly [CaseOrder, string];
  readonly back: readonly [CaseOrder, string];
}

/** Columns of the list from left to right. */
export const COLUMNS: Readonly<Record<CaseColumn, Column>> = {
  number: {
    label: 'No.',
    name: 'Number',
    isFigure: true,
    first: ['number-down', 'Highest number first'],
    back: ['number-up', 'Lowest number first'],
  },
  opened: {
    label: 'Opened',
    first: ['newest', 'Newest first'],
    back: ['oldest', 'Oldest first'],
  },
  closed: {
    label: 'Closed',
    first: ['closed-down', 'Last closed first'],
    back: ['closed-up', 'First closed first'],
  },
  by: {
    label: 'By',
    name: 'Opened by',
    first: ['by-up', 'By who opened it, A to Z'],
    back: ['by-down', 'By who opened it, Z to A'],
  },
  printer: {
    label: 'Printer',
    first: ['printer-up', 'By printer, A to Z'],
    back: ['printer-down', 'By printer, Z to A'],
  },
  spool: {
    label: 'Spool',
    first: ['spool-up', 'By spool, A to Z'],
    back: ['spool-down', 'By spool, Z to A'],
  },
  profile: {
    label: 'Profile',
    first: ['profile-up', 'By profile, A to Z'],
    back: ['profile-down', 'By profile, Z to A'],
  },
  complaint: {
    label: 'Complaint',
    first: ['complaint-up', 'By complaint, A to Z'],
    back: ['complaint-down', 'By complaint, Z to A'],
  },
  cause: {
    label: 'Cause',
    first: ['cause-up', 'By cause, A to Z'],
    back: ['cause-down', 'By cause, Z to A'],
  },
  state: {
    label: 'State',
    first: ['state-up', 'By state'],
    back: ['state-down', 'By state, the other way'],
  },
  minutes: {
    label: 'Lost, min',
    name: 'Minutes lost',
    isFigure: true,
    first: ['costliest', 'Most minutes lost first'],
    back: ['cheapest', 'Fewest minutes lost first'],
  },
  grams: {
    label: 'Scrap, g',
    name: 'Scrap',
    isFigure: true,
    first: ['grams-down', 'Most scrap first'],
    back: ['grams-up', 'Least scrap first'],
  },
};

const IN_PLACE = Object.keys(COLUMNS) as readonly CaseColumn[];

/** What the list shows until somebody chooses. */
export const USUAL_COLUMNS: readonly CaseColumn[] = IN_PLACE.filter(
  (id) => id !== 'closed' && id !== 'by' && id !== 'profile',
);

/** The complaint is the link to the case: it cannot be hidden. */
export const FIXED_COLUMN: CaseColumn = 'complaint';

/** All orders with their words, those that are asked for most first. */
export const ORDER_WORDS: ReadonlyMap<CaseOrder, string> = new Map(
  [COLUMNS.opened, COLUMNS.minutes, ...Object.values(COLUMNS)].flatMap(({ first, back }) => [first, back]),
);

/** The columns that are shown after one was chosen or taken away, in their places. */
export function withColumn(
  shown: readonly CaseColumn[],
  column: CaseColumn,
  isShown: boolean,
): readonly CaseColumn[] {
  return IN_PLACE.filter((id) => id === FIXED_COLUMN || (id === column ? isShown : shown.includes(id)));
}

/** Columns as a part of an address; empty for the usual ones. */
export function columnsToAddress(shown: readonly CaseColumn[]): string {
  return shown.join() === USUAL_COLUMNS.join() ? '' : shown.join('.');
}

/** Reads them back; what is not understood is left out, and of nothing the usual ones come. */
export function columnsFromAddress(part: string): readonly CaseColumn[] {
  const named = part.split('.');
  const shown = IN_PLACE.filter((id) => id === FIXED_COLUMN || named.includes(id));
  return part === '' || !CASE_COLUMNS.some((id) => named.includes(id)) ? USUAL_COLUMNS : shown;
}

/** How a column is sorted under an order, as `aria-sort` says it; undefined where another one is. */
export function sortOf(column: CaseColumn, order: CaseOrder): 'ascending' | 'descending' | undefined {
  const sorted = CASE_ORDERS[order];
  if (sorted.column !== column) return undefined;
  return sorted.isDown ? 'descending' : 'ascending';
}

/** The order that a press on a heading asks for: the first, and on a second press the other way. */
export function orderOnPress(column: CaseColumn, order: CaseOrder): CaseOrder {
  const { first, back } = COLUMNS[column];
  return order === first[0] ? back[0] : first[0];
}
