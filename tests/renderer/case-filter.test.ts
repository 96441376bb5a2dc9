import { describe, expect, it } from 'vitest';
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
  cause: 'wet-filament',
  period: { kind: 'dates', fromDay: '2026-01-02', toDay: '2026-03-04' },
  order: 'costliest',
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
      'state=nowhere&printer=x&cause=Not%20An%20Id&period=ever&order=best&page=-2',
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
    ]).toEqual(['No cases', '1 case', '50 cases', '1 to 50 of 134 cases', '101 to 134 of 134 cases']);
  });
});
