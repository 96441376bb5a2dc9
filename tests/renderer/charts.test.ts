import { describe, expect, it } from 'vitest';
import { monthsSentence } from '../../src-renderer/charts/months.ts';
import { amountWords, paretoOf, paretoSentence } from '../../src-renderer/charts/pareto.ts';
import { timeLost } from '../../src-renderer/wording/time-lost.ts';

const entry = (id: string, minutesLost: number, gramsScrapped = 0) => ({
  id,
  label: id,
  count: 1,
  minutesLost,
  gramsScrapped,
  money: null,
});

describe('a Pareto chart', () => {
  it('puts the most minutes first and adds the shares up to one', () => {
    const rows = paretoOf([entry('a', 10), entry('b', 60), entry('c', 30)], 'minutesLost');
    expect(rows.map((row) => row.id)).toEqual(['b', 'c', 'a']);
    expect(rows.map((row) => row.cumulative)).toEqual([0.6, 0.9, 1]);
  });

  it('says how few took half', () => {
    const rows = paretoOf([entry('a', 30), entry('b', 25), entry('c', 25), entry('d', 20)], 'minutesLost');
    expect(paretoSentence(rows, 'causes', 'minutesLost')).toBe(
      '“a” took 30 % of the time lost; the first 2 of 4 causes took half.',
    );
  });

  it('does not divide by nothing', () => {
    const rows = paretoOf([entry('a', 0)], 'minutesLost');
    expect(rows[0]?.cumulative).toBe(0);
    expect(paretoSentence(rows, 'causes', 'minutesLost')).toBe(
      'Nothing of the time lost is on record for these causes.',
    );
  });

  it('counts in what is asked for', () => {
    const rows = paretoOf([entry('a', 10, 5), entry('b', 60, 1)], 'gramsScrapped');
    expect(rows.map(({ id, amount }) => [id, amount])).toEqual([
      ['a', 5],
      ['b', 1],
    ]);
    expect([
      amountWords(90, 'minutesLost', null),
      amountWords(1250, 'gramsScrapped', null),
      amountWords(12.5, 'money', 'EUR'),
    ]).toEqual(['1 h 30 min', '1.3 kg', '12.50 EUR']);
  });
});

describe('cases by month', () => {
  const month = (name: string, rate: number | null, isOut = false) => ({
    month: name,
    count: 1,
    minutesLost: 1,
    printHours: 100,
    rate,
    low: 0,
    high: 20,
    isOut,
  });

  it('says which months chance does not explain', () => {
    expect(
      monthsSentence({
        centre: 8.4,
        months: [month('2026-01', 5), month('2026-02', 31, true), month('2026-03', 0, true)],
      }),
    ).toBe(
      'The mean is 8.4 cases in 1,000 print hours. More than chance explains: Feb 2026. Fewer than chance explains: Mar 2026.',
    );
    expect(monthsSentence({ centre: 12, months: [month('2026-01', 5)] })).toBe(
      'The mean is 12 cases in 1,000 print hours. No month lies outside what chance explains.',
    );
  });

  it('says why nothing is held against hours that nobody read', () => {
    expect(monthsSentence({ centre: null, months: [month('2026-01', null)] })).toContain(
      'No print hours are on record',
    );
    expect(monthsSentence({ centre: null, months: [] })).toBe('No cases in this period.');
  });
});

describe('time lost', () => {
  it('is told in minutes and hours', () => {
    expect([0, 45, 60, 390, 14_692].map(timeLost)).toEqual(['0 min', '45 min', '1 h', '6 h 30 min', '245 h']);
  });
});
