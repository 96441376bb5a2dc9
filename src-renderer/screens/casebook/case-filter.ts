import { INITIALS } from '../../../src-core/contract/initials.ts';
import type { CaseState } from '../../../src-core/contract/case-view.ts';
import { CASE_ORDERS, type CaseColumn, type CaseOrder } from '../../../src-core/contract/case-orders.ts';
import type { CaseFilterInput } from '../../../src-core/contract/casebook-view.ts';
import { LONGEST_TAG } from '../../../src-core/contract/tag-limits.ts';
import { columnsFromAddress, columnsToAddress, USUAL_COLUMNS } from './case-columns.ts';
import { ALL_TIME, isPeriodKind, periodRange, type Period } from '../../wording/period.ts';
import { m } from '../../messages/en/casebook.ts';

/** What the list shows, as it stands in the address. */
export interface ListFilter {
  readonly search: string;
  readonly standing: Standing;
  readonly printerId: string | null;
  readonly spoolId: string | null;
  /** Initials. */
  readonly openedBy: string | null;
  readonly practice: string | null;
  /** Name of the print profile. */
  readonly profile: string | null;
  readonly tag: string | null;
  /** At least; 0 for any. */
  readonly leastMinutes: number;
  readonly leastGrams: number;
  readonly cause: string | null;
  /** When they were opened. */
  readonly period: Period;
  readonly closed: Period;
  readonly order: CaseOrder;
  readonly columns: readonly CaseColumn[];
  /** From 1. */
  readonly page: number;
}

/** Where cases stand, as a lead sorts them. */
export const STANDINGS = [
  { id: 'any', label: m.all(), states: [] },
  {
    id: 'in-work',
    label: m.inWork(),
    states: ['stop-now', 'make-safe', 'checking', 'verdict', 'remedy', 'verification', 'closing'],
  },
  { id: 'with-lead', label: m.handedOver(), states: ['handed-over'] },
  { id: 'parked', label: m.parked(), states: ['parked'] },
  { id: 'closed', label: m.closed(), states: ['closed'] },
] as const satisfies readonly { id: string; label: string; states: readonly CaseState[] }[];
export type Standing = (typeof STANDINGS)[number]['id'];

export const PAGE_SIZE = 50;
/** As long as any name of the shop may be. */
const LONGEST_NAME = 80;
/** Where a search ends counting (`src-main/casebook/search/case-search.ts`). */
const MOST_COUNTED = 10_000;

export const NO_FILTER: ListFilter = {
  search: '',
  standing: 'any',
  printerId: null,
  spoolId: null,
  openedBy: null,
  practice: null,
  profile: null,
  tag: null,
  leastMinutes: 0,
  leastGrams: 0,
  cause: null,
  period: ALL_TIME,
  closed: ALL_TIME,
  order: 'newest',
  columns: USUAL_COLUMNS,
  page: 1,
};

/** The filter as one part of an address, only what differs from no filter; empty where nothing does. */
export function filterToAddress(filter: Partial<ListFilter>): string {
  const all = { ...NO_FILTER, ...filter };
  const { search, standing, printerId, cause, period, order, page } = all;
  const parts = new URLSearchParams();
  if (search.trim()) parts.set('search', search.trim());
  if (standing !== 'any') parts.set('state', standing);
  if (printerId) parts.set('printer', printerId);
  if (all.spoolId) parts.set('spool', all.spoolId);
  if (all.openedBy) parts.set('by', all.openedBy);
  if (all.practice) parts.set('habit', all.practice);
  if (all.profile) parts.set('profile', all.profile);
  if (all.tag) parts.set('tag', all.tag);
  if (all.leastMinutes > 0) parts.set('minutes', String(all.leastMinutes));
  if (all.leastGrams > 0) parts.set('grams', String(all.leastGrams));
  if (cause) parts.set('cause', cause);
  periodToAddress(parts, period, OPENED_PARTS);
  periodToAddress(parts, all.closed, CLOSED_PARTS);
  if (order !== 'newest') parts.set('order', order);
  const columns = columnsToAddress(all.columns);
  if (columns) parts.set('columns', columns);
  if (page > 1) parts.set('page', String(page));
  return parts.toString();
}

/** What a period's kind, first and last day are called in an address. */
type PeriodParts = readonly [kind: string, from: string, to: string];
const OPENED_PARTS: PeriodParts = ['period', 'from', 'to'];
const CLOSED_PARTS: PeriodParts = ['closed', 'closed-from', 'closed-to'];

function periodToAddress(parts: URLSearchParams, period: Period, [kind, from, to]: PeriodParts): void {
  if (period.kind !== 'all') parts.set(kind, period.kind);
  if (period.kind === 'dates' && period.fromDay) parts.set(from, period.fromDay);
  if (period.kind === 'dates' && period.toDay) parts.set(to, period.toDay);
}

function periodFromAddress(parts: URLSearchParams, [kind, from, to]: PeriodParts): Period {
  const found = parts.get(kind) ?? 'all';
  return {
    kind: isPeriodKind(found) ? found : 'all',
    fromDay: parts.get(from) ?? '',
    toDay: parts.get(to) ?? '',
  };
}

/** Reads an address's part; anything that is not understood is left out. */
export function filterFromAddress(part: string): ListFilter {
  const parts = new URLSearchParams(part);
  const page = Number(parts.get('page') ?? 1);
  const order = parts.get('order') ?? '';
  const idIn = (name: string) => {
    const id = parts.get(name) ?? '';
    return /^[0-9A-Z]{26}$/.test(id) ? id : null;
  };
  const wordIn = (name: string) => {
    const word = parts.get(name) ?? '';
    return /^[a-z0-9]+(-[a-z0-9]+)*$/.test(word) ? word : null;
  };
  const numberIn = (name: string, most: number) => {
    const number = Number(parts.get(name) ?? 0);
    return number > 0 && number <= most ? number : 0;
  };
  const by = parts.get('by') ?? '';
  return {
    search: (parts.get('search') ?? '').slice(0, 200),
    standing: STANDINGS.find(({ id }) => id === parts.get('state'))?.id ?? 'any',
    printerId: idIn('printer'),
    spoolId: idIn('spool'),
    openedBy: INITIALS.test(by) ? by : null,
    practice: wordIn('habit'),
    profile: (parts.get('profile') ?? '').trim().slice(0, LONGEST_NAME) || null,
    tag: (parts.get('tag') ?? '').trim().slice(0, LONGEST_TAG) || null,
    leastMinutes: numberIn('minutes', 100_000),
    leastGrams: numberIn('grams', 1_000_000),
    cause: wordIn('cause'),
    period: periodFromAddress(parts, OPENED_PARTS),
    closed: periodFromAddress(parts, CLOSED_PARTS),
    order: isOrder(order) ? order : 'newest',
    columns: columnsFromAddress(parts.get('columns') ?? ''),
    page: Number.isInteger(page) && page >= 1 ? page : 1,
  };
}

/** What the host is asked for one page. */
export function filterToCall(filter: ListFilter, now: Date): Required<CaseFilterInput> {
  const { from, to } = periodRange(filter.period, now);
  const closed = periodRange(filter.closed, now);
  return {
    search: filter.search,
    states: [...(STANDINGS.find(({ id }) => id === filter.standing)?.states ?? [])],
    printerId: filter.printerId,
    spoolId: filter.spoolId,
    openedBy: filter.openedBy,
    practice: filter.practice,
    profile: filter.profile,
    tag: filter.tag,
    leastMinutes: filter.leastMinutes,
    leastGrams: filter.leastGrams,
    cause: filter.cause,
    openedFrom: from?.toISOString() ?? null,
    openedTo: to?.toISOString() ?? null,
    closedFrom: closed.from?.toISOString() ?? null,
    closedTo: closed.to?.toISOString() ?? null,
    order: filter.order,
    offset: (filter.page - 1) * PAGE_SIZE,
    limit: PAGE_SIZE,
  };
}

export function isFiltered(filter: ListFilter): boolean {
  return filterToAddress({ ...filter, order: 'newest', columns: USUAL_COLUMNS, page: 1 }) !== '';
}

/** Number of pages; an empty list has one. */
export function pageCount(total: number): number {
  return Math.max(1, Math.ceil(total / PAGE_SIZE));
}

/** "1 to 50 of 134 cases"; "1 to 50 of more than 10000 cases" where counting ended there. */
export function pageWords(page: number, total: number, isMore = false): string {
  if (total === 0) return m.noCases();
  if (total === 1) return m.n1Case();
  const first = (page - 1) * PAGE_SIZE + 1;
  const last = Math.min(total, page * PAGE_SIZE);
  if (isMore) return m.toOfMoreThanCases({ first, last, mostCounted: MOST_COUNTED });
  return first === 1 && last === total ? m.casesWithTotal({ total }) : m.toOfCases({ first, last, total });
}

/** "134 cases that fit the filter" over a print, or "The first 2000 of 2412 cases; …" where it does not hold all. */
export function printedWords(count: number, total: number, filter: ListFilter): string {
  const cases = fittingWords(m.printedCases({ count: total }), filter);
  return count < total ? m.theFirstOfNarrowTheFilter({ count, cases }) : cases;
}

/** Cases as they were counted, with the word that a filter is set where it is. */
export function fittingWords(cases: string, filter: ListFilter): string {
  return isFiltered(filter) ? m.thatFitTheFilter({ cases }) : cases;
}

function isOrder(text: string): text is CaseOrder {
  return Object.hasOwn(CASE_ORDERS, text);
}
