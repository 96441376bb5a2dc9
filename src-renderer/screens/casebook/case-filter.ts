import type { CaseState } from '../../../src-core/contract/case-view.ts';
import type { CaseFilterInput } from '../../../src-core/contract/casebook-view.ts';
import { ALL_TIME, isPeriodKind, periodRange, type Period } from '../../wording/period.ts';

/** What the list shows, as it stands in the address. */
export interface ListFilter {
  readonly search: string;
  readonly standing: Standing;
  readonly printerId: string | null;
  readonly cause: string | null;
  readonly period: Period;
  readonly order: CaseOrder;
  /** From 1. */
  readonly page: number;
}
export type CaseOrder = 'newest' | 'oldest' | 'costliest';

/** Where cases stand, as a lead sorts them. */
export const STANDINGS = [
  { id: 'any', label: 'All', states: [] },
  {
    id: 'in-work',
    label: 'In work',
    states: ['stop-now', 'make-safe', 'checking', 'verdict', 'remedy', 'verification', 'closing'],
  },
  { id: 'with-lead', label: 'Handed over', states: ['handed-over'] },
  { id: 'parked', label: 'Parked', states: ['parked'] },
  { id: 'closed', label: 'Closed', states: ['closed'] },
] as const satisfies readonly { id: string; label: string; states: readonly CaseState[] }[];
export type Standing = (typeof STANDINGS)[number]['id'];

export const ORDER_WORDS: Readonly<Record<CaseOrder, string>> = {
  newest: 'Newest first',
  oldest: 'Oldest first',
  costliest: 'Most minutes lost first',
};

export const PAGE_SIZE = 50;

export const NO_FILTER: ListFilter = {
  search: '',
  standing: 'any',
  printerId: null,
  cause: null,
  period: ALL_TIME,
  order: 'newest',
  page: 1,
};

/** The filter as one part of an address, only what differs from no filter; empty where nothing does. */
export function filterToAddress(filter: Partial<ListFilter>): string {
  const { search, standing, printerId, cause, period, order, page } = { ...NO_FILTER, ...filter };
  const parts = new URLSearchParams();
  if (search.trim()) parts.set('search', search.trim());
  if (standing !== 'any') parts.set('state', standing);
  if (printerId) parts.set('printer', printerId);
  if (cause) parts.set('cause', cause);
  if (period.kind !== 'all') parts.set('period', period.kind);
  if (period.kind === 'dates' && period.fromDay) parts.set('from', period.fromDay);
  if (period.kind === 'dates' && period.toDay) parts.set('to', period.toDay);
  if (order !== 'newest') parts.set('order', order);
  if (page > 1) parts.set('page', String(page));
  return parts.toString();
}

/** Reads an address's part; anything that is not understood is left out. */
export function filterFromAddress(part: string): ListFilter {
  const parts = new URLSearchParams(part);
  const period = parts.get('period') ?? 'all';
  const page = Number(parts.get('page') ?? 1);
  const order = parts.get('order') ?? '';
  const cause = parts.get('cause') ?? '';
  const printerId = parts.get('printer') ?? '';
  return {
    search: (parts.get('search') ?? '').slice(0, 200),
    standing: STANDINGS.find(({ id }) => id === parts.get('state'))?.id ?? 'any',
    printerId: /^[0-9A-Z]{26}$/.test(printerId) ? printerId : null,
    cause: /^[a-z0-9]+(-[a-z0-9]+)*$/.test(cause) ? cause : null,
    period: {
      kind: isPeriodKind(period) ? period : 'all',
      fromDay: parts.get('from') ?? '',
      toDay: parts.get('to') ?? '',
    },
    order: isOrder(order) ? order : 'newest',
    page: Number.isInteger(page) && page >= 1 ? page : 1,
  };
}

/** What the host is asked for one page. */
export function filterToCall(filter: ListFilter, now: Date): Required<CaseFilterInput> {
  const { from, to } = periodRange(filter.period, now);
  return {
    search: filter.search,
    states: [...(STANDINGS.find(({ id }) => id === filter.standing)?.states ?? [])],
    printerId: filter.printerId,
    cause: filter.cause,
    openedFrom: from?.toISOString() ?? null,
    openedTo: to?.toISOString() ?? null,
    order: filter.order,
    offset: (filter.page - 1) * PAGE_SIZE,
    limit: PAGE_SIZE,
  };
}

export function isFiltered(filter: ListFilter): boolean {
  return filterToAddress({ ...filter, order: 'newest', page: 1 }) !== '';
}

/** Number of pages; an empty list has one. */
export function pageCount(total: number): number {
  return Math.max(1, Math.ceil(total / PAGE_SIZE));
}

/** "1 to 50 of 134 cases". */
export function pageWords(page: number, total: number): string {
  if (total === 0) return 'No cases';
  if (total === 1) return '1 case';
  const first = (page - 1) * PAGE_SIZE + 1;
  const last = Math.min(total, page * PAGE_SIZE);
  return first === 1 && last === total ? `${total} cases` : `${first} to ${last} of ${total} cases`;
}

/** "134 cases that fit the filter" over a print, or "The first 2000 of 2412 cases; …" where it does not hold all. */
export function printedWords(count: number, total: number, filter: ListFilter): string {
  const which = `${total === 1 ? 'case' : 'cases'}${fitWords(filter)}`;
  return count < total
    ? `The first ${count} of ${total} ${which}; narrow the filter to print others.`
    : `${count} ${which}`;
}

/** What a count of cases ends with while a filter is set. */
export function fitWords(filter: ListFilter): string {
  return isFiltered(filter) ? ' that fit the filter' : '';
}

function isOrder(text: string): text is CaseOrder {
  return Object.hasOwn(ORDER_WORDS, text);
}
