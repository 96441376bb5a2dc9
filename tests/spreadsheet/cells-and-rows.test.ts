import { describe, expect, it } from 'vitest';
import { shopCalendar } from '../../src-core/recurrence/shop-calendar.ts';
import { amountInCell, timeInCell } from '../../src-core/spreadsheet/cell-values.ts';
import { fitsSheet, guessMapping } from '../../src-core/spreadsheet/guess-mapping.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { readSheet } from '../../src-core/spreadsheet/read-rows.ts';

describe('a sheet', () => {
  it('is parted by what parts its first line, with the line of the file at which each row begins', () => {
    const text =
      '\ufeffDate;Fault;Note\r\n1.3.2026;Stringing;"two\r\nlines; here"\r\n;;\r\n2.3.2026;Warping;\r\n';
    const { columns, rows } = readSheet(text);
    expect(columns).toEqual(['Date', 'Fault', 'Note']);
    expect(rows.map(({ line, cells }) => [line, cells.get('Date'), cells.get('Note')])).toEqual([
      [2, '1.3.2026', 'two\nlines; here'],
      [5, '2.3.2026', ''],
    ]);
  });

  it('says where a row has more cells than columns, and calls columns without a name by their place', () => {
    const { columns, rows } = readSheet('Date,,Date\n1,2,3,4\n1,2,3\n');
    expect(columns).toEqual(['Date', 'Column 2', 'Column 3']);
    expect(rows.map(({ fault }) => fault === null)).toEqual([false, true]);
  });

  it('is guessed from what columns are called; a month before a day is seen in a day above 12', () => {
    const sheet = readSheet('Date,Machine,Problem,Root cause,Hours lost\n3/17/2026,Heron,a,b,1\n');
    const mapping = guessMapping(sheet);
    expect(mapping).toMatchObject({
      columns: {
        opened: 'Date',
        printer: 'Machine',
        complaint: 'Problem',
        cause: 'Root cause',
        lost: 'Hours lost',
      },
      dateOrder: 'month-first',
      lostUnit: 'hours',
    });
    expect(fitsSheet(mapping, sheet)).toBe(true);
    expect(fitsSheet(mapping, readSheet('Date,Machine\n1,2\n'))).toBe(false);
  });
});

describe('a cell', () => {
  const calendar = shopCalendar('Europe/Berlin');
  const iso = (text: string, order: 'day-first' | 'month-first' = 'day-first') => {
    const time = timeInCell(text, order, calendar);
    return 'value' in time ? new Date(time.value).toISOString() : inEnglish(time.fault);
  };

  it('is a day by the shop’s clock in each way of writing it', () => {
    for (const text of ['2026-03-04', '4.3.2026', '04/03/2026', '4-3-26'])
      expect(iso(text), text).toBe('2026-03-04T11:00:00.000Z');
    expect(iso('3/4/2026', 'month-first')).toBe('2026-03-04T11:00:00.000Z');
    // Points mean day first, whatever is said of strokes.
    expect(iso('4.3.2026', 'month-first')).toBe('2026-03-04T11:00:00.000Z');
    expect(iso('04/03/2026 14:30')).toBe('2026-03-04T13:30:00.000Z');
    expect(iso('2026-07-04 14:30')).toBe('2026-07-04T12:30:00.000Z');
  });

  it('is refused where it is no day', () => {
    expect(iso('31/02/2026')).toMatch('no day of the calendar, read as day first');
    expect(iso('2026-13-01')).toMatch('no day of the calendar');
    expect(iso('yesterday')).toMatch('is no date');
  });

  it('is an amount with comma or point, and refused where it can be read in two ways', () => {
    expect(amountInCell('12,5')).toEqual({ value: 12.5 });
    expect(amountInCell('0.125')).toEqual({ value: 0.125 });
    expect(amountInCell('1 200')).toEqual({ value: 1200 });
    for (const text of ['1,200', '1.200', '-3', '12 min', '1e3'])
      expect(amountInCell(text)).toHaveProperty('fault');
  });
});
