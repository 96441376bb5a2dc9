import {
  CASE_COLUMNS,
  CASE_ORDERS,
  type CaseColumn,
  type CaseOrder,
} from '../../../src-core/contract/case-orders.ts';
import { m } from '../../messages/en/casebook.ts';

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
    label: m.no(),
    name: m.number(),
    isFigure: true,
    first: ['number-down', m.highestNumberFirst()],
    back: ['number-up', m.lowestNumberFirst()],
  },
  opened: {
    label: m.opened(),
    first: ['newest', m.newestFirst()],
    back: ['oldest', m.oldestFirst()],
  },
  closed: {
    label: m.closed(),
    first: ['closed-down', m.lastClosedFirst()],
    back: ['closed-up', m.firstClosedFirst()],
  },
  by: {
    label: m.by(),
    name: m.openedBy(),
    first: ['by-up', m.byWhoOpenedItATo()],
    back: ['by-down', m.byWhoOpenedItZTo()],
  },
  printer: {
    label: m.printer(),
    first: ['printer-up', m.byPrinterAToZ()],
    back: ['printer-down', m.byPrinterZToA()],
  },
  spool: {
    label: m.spool(),
    first: ['spool-up', m.bySpoolAToZ()],
    back: ['spool-down', m.bySpoolZToA()],
  },
  profile: {
    label: m.profile(),
    first: ['profile-up', m.byProfileAToZ()],
    back: ['profile-down', m.byProfileZToA()],
  },
  tags: {
    label: m.tags(),
    first: ['tags-up', m.byTagAToZ()],
    back: ['tags-down', m.byTagZToA()],
  },
  complaint: {
    label: m.complaint(),
    first: ['complaint-up', m.byComplaintAToZ()],
    back: ['complaint-down', m.byComplaintZToA()],
  },
  cause: {
    label: m.cause(),
    first: ['cause-up', m.byCauseAToZ()],
    back: ['cause-down', m.byCauseZToA()],
  },
  state: {
    label: m.state(),
    first: ['state-up', m.byState()],
    back: ['state-down', m.byStateTheOtherWay()],
  },
  minutes: {
    label: m.lostMin(),
    name: m.minutesLost(),
    isFigure: true,
    first: ['costliest', m.mostMinutesLostFirst()],
    back: ['cheapest', m.fewestMinutesLostFirst()],
  },
  grams: {
    label: m.scrapG(),
    name: m.scrap(),
    isFigure: true,
    first: ['grams-down', m.mostScrapFirst()],
    back: ['grams-up', m.leastScrapFirst()],
  },
};

const IN_PLACE = Object.keys(COLUMNS) as readonly CaseColumn[];

/** What the list shows until somebody chooses. */
export const USUAL_COLUMNS: readonly CaseColumn[] = IN_PLACE.filter(
  (id) => id !== 'closed' && id !== 'by' && id !== 'profile' && id !== 'tags',
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
