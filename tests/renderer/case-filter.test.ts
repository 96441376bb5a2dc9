import { describe, expect, it } from 'vitest';
import { CASE_ORDER_IDS } from '../../src-core/contract/case-orders.ts';
import {
  ORDER_WORDS,
  orderOnPress,
  sortOf,
  withColumn,
} from '../../src-renderer/screens/casebook/case-columns.ts';
import {
  filterFromAddress,
  filterToAddress,
  filterToCall,
  isFiltered,
  NO_FILTER,
  pageCount,
  pageWords,
  type ListFilter,
} from '../../src-renderer/screens/casebook/case-filter.ts';

const full: ListFilter = {
  search: 'heron & wet/50 %',
  standing: 'closed',
  printerId: '01M894ST8G8S9W7MH1KMRJ5QWX',
  spoolId: '01M894ST8G8S9W7MH1KMRJ5QWY',
  openedBy: 'KÄ',
  practice: 'spools-left-open',
  profile: 'Fein & 0.2 mm',
  tag: 'Trial 3 & more',
  leastMinutes: 30,
  leastGrams: 12.5,
  cause: 'wet-filament',
  period: { kind: 'dates', fromDay: '2026-01-02', toDay: '2026-03-04' },
  closed: { kind: 'dates', fromDay: '2026-02-03', toDay: '2026-02-28' },
  order: 'costliest',
  columns: ['opened', 'by', 'complaint', 'minutes'],
  page: 3,
};

describe('the filter in the address', () => {
  it('comes back as it went in', () => {
    expect(filterFromAddress(filterToAddress(full))).toEqual(full);
    expect(filterFromAddress(filterToAddress(NO_FILTER))).toEqual(NO_FILTER);
  });

  it('is empty for no filter, so that the plain address stays plain', () => {
    expect(filterToAddress({})).toBe('');
  });

  it('leaves out what it does not understand', () => {
    const read = filterFromAddress(
      'state=nowhere&printer=x&cause=Not%20An%20Id&period=ever&order=best&page=-2&by=x1&minutes=-3&columns=weight',
    );
    expect(read).toEqual(NO_FILTER);
  });

  it('knows a filter from an order or a page', () => {
    expect(isFiltered({ ...NO_FILTER, order: 'oldest', page: 2 })).toBe(false);
    expect(isFiltered({ ...NO_FILTER, search: 'x' })).toBe(true);
  });
});

describe('paging', () => {
  it('asks for the rows of its page only', () => {
    const call = filterToCall(full, new Date(2026, 5, 1));
    expect(call.offset).toBe(100);
    expect(call.limit).toBe(50);
    expect(call.states).toEqual(['closed']);
    expect(call.openedFrom).toBe(new Date(2026, 0, 2).toISOString());
    // The last day is meant whole.
    expect(call.openedTo).toBe(new Date(2026, 2, 5).toISOString());
    expect(call.closedFrom).toBe(new Date(2026, 1, 3).toISOString());
    expect(call.closedTo).toBe(new Date(2026, 2, 1).toISOString());
  });

  it('counts pages, one for an empty list', () => {
    expect([0, 1, 50, 51, 134].map(pageCount)).toEqual([1, 1, 1, 2, 3]);
  });

  it('says which rows are shown', () => {
    expect([
      pageWords(1, 0),
      pageWords(1, 1),
      pageWords(1, 50),
      pageWords(1, 134),
      pageWords(3, 134),
      pageWords(2, 10_023, true),
    ]).toEqual([
      'No cases',
      '1 case',
      '50 cases',
      '1 to 50 of 134 cases',
      '101 to 134 of 134 cases',
      '51 to 100 of more than 10000 cases',
    ]);
  });
});

describe('columns of the list', () => {
  it('stand in their places whatever order they were chosen in, and the complaint stays', () => {
    expect(withColumn(['complaint', 'state'], 'number', true)).toEqual(['number', 'complaint', 'state']);
    expect(withColumn(['complaint', 'state'], 'complaint', false)).toEqual(['complaint', 'state']);
    expect(withColumn(['complaint', 'state'], 'state', false)).toEqual(['complaint']);
  });

  it('are sorted by a press on their heading, and the other way by a second', () => {
    expect(orderOnPress('minutes', 'newest')).toBe('costliest');
    expect(orderOnPress('minutes', 'costliest')).toBe('cheapest');
    expect(orderOnPress('minutes', 'cheapest')).toBe('costliest');
    expect(sortOf('minutes', 'costliest')).toBe('descending');
    expect(sortOf('opened', 'costliest')).toBeUndefined();
    expect(ORDER_WORDS.size).toBe(CASE_ORDER_IDS.length);
  });
});
