import { describe, expect, it } from 'vitest';
import { monthsSentence, withEmptyMonths } from '../../src-renderer/charts/months.ts';
import { paretoOf, paretoSentence } from '../../src-renderer/charts/pareto.ts';
import { timeLost } from '../../src-renderer/wording/time-lost.ts';

const entry = (id: string, minutesLost: number) => ({ id, label: id, count: 1, minutesLost });

describe('a Pareto chart', () => {
  it('puts the most minutes first and adds the shares up to one', () => {
    const rows = paretoOf([entry('a', 10), entry('b', 60), entry('c', 30)]);
    expect(rows.map((row) => row.id)).toEqual(['b', 'c', 'a']);
    expect(rows.map((row) => row.cumulative)).toEqual([0.6, 0.9, 1]);
  });

  it('says how few took half', () => {
    const rows = paretoOf([entry('a', 30), entry('b', 25), entry('c', 25), entry('d', 20)]);
    expect(paretoSentence(rows, 'causes')).toBe(
      '“a” took 30 % of the minutes lost; the first 2 of 4 causes took half.',
    );
  });

  it('does not divide by nothing', () => {
    expect(paretoOf([entry('a', 0)])[0]?.cumulative).toBe(0);
    expect(paretoSentence(paretoOf([entry('a', 0)]), 'causes')).toBe(
      'No minutes lost are on record for these causes.',
    );
  });
});

describe('cases by month', () => {
  const months = [
    { month: '2026-02', count: 3, minutesLost: 30 },
    { month: '2025-11', count: 1, minutesLost: 10 },
  ];

  it('fills the months without cases in, across the turn of the year', () => {
    expect(withEmptyMonths(months).map((one) => [one.month, one.count])).toEqual([
      ['2025-11', 1],
      ['2025-12', 0],
      ['2026-01', 0],
      ['2026-02', 3],
    ]);
  });

  it('counts the empty months in the mean', () => {
    expect(monthsSentence(withEmptyMonths(months))).toBe(
      'Most were opened in Feb 2026: 3 cases; the mean is 1.0 a month.',
    );
  });
});

describe('time lost', () => {
  it('is told in minutes and hours', () => {
    expect([0, 45, 60, 390, 14_692].map(timeLost)).toEqual(['0 min', '45 min', '1 h', '6 h 30 min', '245 h']);
  });
});
