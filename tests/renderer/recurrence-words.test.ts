import { describe, expect, it } from 'vitest';
import type { Recurrence, RecurrenceRow } from '../../src-core/contract/casebook-view.ts';
import { poissonAtLeast } from '../../src-core/statistics/poisson.ts';
import { chanceWords, expectedWords } from '../../src-renderer/wording/chance-words.ts';
import {
  comparisonsOf,
  comparisonsSentence,
  leadingSentence,
  periodTotals,
  readingOf,
} from '../../src-renderer/wording/recurrence-words.ts';

function row(printer: string, cause: string, count: number, expectedCount: number): RecurrenceRow {
  return {
    printerId: printer,
    printerLabel: printer,
    printHours: 1000,
    cause,
    causeLabel: cause,
    count,
    expectedCount,
    probabilityOfAtLeast: poissonAtLeast(count, expectedCount),
    ratePer1000Hours: count,
    rateLow: 0,
    rateHigh: 0,
    minutesLost: 60 * count,
    gramsScrapped: 100 * count,
    practices: [],
  };
}

function recurrence(rows: readonly RecurrenceRow[]): Recurrence {
  return {
    from: '2026-01-01T00:00:00.000Z',
    to: '2026-12-01T00:00:00.000Z',
    caseCount: rows.reduce((sum, one) => sum + one.count, 0),
    minutesLost: 600,
    gramsScrapped: 1250,
    rows: rows.toSorted((a, b) => a.probabilityOfAtLeast - b.probabilityOfAtLeast),
    causes: rows.map((one) => ({
      cause: one.cause,
      causeLabel: one.causeLabel,
      count: one.count,
      minutesLost: one.minutesLost,
      gramsScrapped: one.gramsScrapped,
    })),
    practices: [],
    months: [],
  };
}

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('the leading sentence', () => {
  it('names printer, cause, count, expectation and chance where a pair stands out', () => {
    const said = leadingSentence(
      recurrence([row('Heron', 'Wet filament', 28, 9.7), row('Wren', 'Clog', 2, 1.5)]),
    );
    expect(plain(said)).toBe(
      'Wet filament on Heron: 28 cases against about 9.7 expected (below 0.01 % by chance) – far more than chance.',
    );
  });

  it('does not claim certainty for a chance that so many looks would bring by themselves', () => {
    const rows = Array.from({ length: 30 }, (_, i) => row(`P${i % 6}`, `Cause ${i}`, 2, 1.6));
    // About 3.5 % by itself; 31 causes on 6 printers bring several such.
    const said = leadingSentence(recurrence([...rows, row('P0', 'Clog', 3, 0.7)]));
    expect(said).toMatch(/^Nothing stands out for certain\. Closest to it: Clog on P0: 3 cases/);
  });

  it('says where the time went when nothing comes back', () => {
    const said = leadingSentence(recurrence([row('Heron', 'Clog', 3, 3), row('Wren', 'Wet filament', 1, 1)]));
    expect(said).toBe(
      'No cause comes back on any printer more often than chance would bring. Most time went into “Clog”: 3 h in 3 cases.',
    );
  });

  it('says so when there is no case', () => {
    expect(leadingSentence(recurrence([]))).toBe('No case was closed in this period.');
  });
});

describe('many comparisons', () => {
  it('count every cause on every printer and share 5 % among them', () => {
    const comparisons = comparisonsOf([row('A', 'x', 1, 1), row('A', 'y', 1, 1), row('B', 'x', 1, 1)]);
    expect(comparisons).toEqual({ causes: 2, printers: 2, pairs: 4, limit: 0.0125 });
  });

  it('are told in one line with how many small chances are to be expected', () => {
    const comparisons = { causes: 40, printers: 6, pairs: 240, limit: 0.05 / 240 };
    expect(plain(comparisonsSentence(comparisons))).toBe(
      '240 pairs of printer and cause were looked at (40 causes on 6 printers), so a few small chances are to be expected: up to 12 below 5 % by chance alone. Only a chance below 0.02 % stands out among so many.',
    );
  });

  it('never call a single case a recurrence, however rare it is', () => {
    expect(readingOf(row('A', 'x', 1, 0.000001), comparisonsOf([]))).toBe('could be chance');
  });
});

describe('chances and counts in words', () => {
  it('keep as much precision as helps and never read 0 %', () => {
    expect([0.46, 0.031, 0.0012, 0.00002, 1e-12, 0.9999, 1].map((one) => plain(chanceWords(one)))).toEqual([
      '46 %',
      '3.1 %',
      '0.12 %',
      'below 0.01 %',
      'below 0.01 %',
      'above 99 %',
      '100 %',
    ]);
    expect([12.4, 9.7, 0.397, 0.001].map(expectedWords)).toEqual(['12', '9.7', '0.40', 'below 0.01']);
  });

  it('give the period its totals in hours, not days', () => {
    expect(periodTotals({ ...recurrence([row('A', 'x', 3, 1)]), minutesLost: 14_692 })).toBe(
      '3 cases closed, 245 h lost, 1.3 kg of filament scrapped.',
    );
  });
});
