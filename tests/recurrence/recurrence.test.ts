import { describe, expect, it } from 'vitest';
import { recurrencesOf, type ConfirmedCase } from '../../src-core/recurrence/recurrence.ts';
import { binomialAtLeast } from '../../src-core/statistics/binomial.ts';
import { referenceValue } from '../published/reference-record.ts';

const cases = (counts: Readonly<Record<string, number>>): ConfirmedCase[] =>
  Object.entries(counts).flatMap(([printerId, count]) =>
    Array.from({ length: count }, () => ({
      printerId,
      cause: 'wet-filament',
      minutesLost: 10,
      gramsScrapped: 5,
    })),
  );
const rowOf = (counts: Readonly<Record<string, number>>, hours: Readonly<Record<string, number>>, id = 'A') =>
  recurrencesOf(cases(counts), new Map(Object.entries(hours))).find(({ printerId }) => printerId === id);

describe('B5: a printer is held against the others', () => {
  it('four cases all on one of two alike: 1 in 16, with none expected', () => {
    expect(rowOf({ A: 4 }, { A: 100, B: 100 })).toMatchObject({
      probabilityOfAtLeast: 0.0625,
      expectedCount: 0,
    });
  });

  it('two printers: the conditional test of two Poisson rates, statistics.yaml two-printers', () => {
    const { p_one_sided } = referenceValue<{ p_one_sided: number }>('statistics', 'two-printers');
    const row = rowOf({ A: 9, B: 3 }, { A: 300, B: 400 });
    expect(row?.probabilityOfAtLeast).toBeCloseTo(p_one_sided, 12);
    expect(row?.expectedCount).toBeCloseTo((3 / 400) * 300, 12);
  });

  it.each([
    [
      { A: 3, B: 1 },
      { A: 120, B: 80, C: 300 },
    ],
    [
      { A: 2, B: 2, D: 1 },
      { A: 50, B: 210, C: 90, D: 33 },
    ],
    [
      { A: 5, C: 1 },
      { A: 400, B: 1, C: 20 },
    ],
  ])('many printers: the share of all ways that %j can fall on %j', (counts, hours) => {
    // Every way to share the cases out, one case at a time: the multinomial straight from the definition.
    const names = Object.keys(hours);
    const total = Object.values(hours).reduce((sum, one) => sum + one, 0);
    const n = Object.values(counts).reduce((sum, one) => sum + one, 0);
    const own = counts.A;
    const atLeast = (left: number, onA: number): number =>
      left === 0
        ? Number(onA >= own)
        : names.reduce(
            (sum, name) =>
              sum +
              (((hours as Record<string, number>)[name] ?? 0) / total) *
                atLeast(left - 1, onA + Number(name === 'A')),
            0,
          );
    expect(rowOf(counts, hours)?.probabilityOfAtLeast).toBeCloseTo(atLeast(n, 0), 12);
  });

  it('a printer that has all the hours is held against nothing', () => {
    expect(rowOf({ A: 4 }, { A: 100 })).toMatchObject({ probabilityOfAtLeast: 1, expectedCount: 4 });
  });

  it('cases of printers without hours count neither here nor there', () => {
    expect(rowOf({ A: 4, B: 7 }, { A: 100, B: 0, C: 100 })?.probabilityOfAtLeast).toBe(0.0625);
  });
});

describe('the binomial tail', () => {
  it('is exact at its ends and keeps small chances', () => {
    expect(binomialAtLeast(0, 5, 0.3)).toBe(1);
    expect(binomialAtLeast(6, 5, 0.3)).toBe(0);
    expect(binomialAtLeast(3, 3, 1)).toBe(1);
    expect(binomialAtLeast(1, 3, 0)).toBe(0);
    expect(binomialAtLeast(40, 40, 0.1)).toBeCloseTo(1e-40, 50);
    expect(binomialAtLeast(40, 40, 0.1) / 1e-40).toBeCloseTo(1, 10);
  });

  it.each([
    [-1, 3, 0.5],
    [1, 2.5, 0.5],
    [1, 3, 1.5],
    [1, 3, NaN],
  ])('refuses %f of %f at %f', (count, trials, share) => {
    expect(() => binomialAtLeast(count, trials, share)).toThrow(RangeError);
  });
});
