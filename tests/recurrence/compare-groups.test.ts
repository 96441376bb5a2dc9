import { ANY_FAULT } from '../../src-core/contract/recurrence-choices.ts';
import { describe, expect, it } from 'vitest';
import { compareGroups, leaningRates } from '../../src-core/recurrence/compare-groups.ts';
import type { CountedCase } from '../../src-core/recurrence/tally.ts';
import { binomialAtLeast } from '../../src-core/statistics/binomial.ts';
import { referenceValue } from '../published/reference-record.ts';

interface Told extends CountedCase {
  readonly what: readonly string[];
}
const compareEach = (told: readonly Told[], hours: ReadonlyMap<string, number> | null) =>
  compareGroups(told, hours, ({ what }) => what);

const caseAt = (where: string | null, ...what: string[]): Told => ({
  openedMs: 0,
  where,
  what,
  minutesLost: 10,
  gramsScrapped: 5,
});
const cases = (counts: Readonly<Record<string, number>>, what = 'wet-filament'): Told[] =>
  Object.entries(counts).flatMap(([where, count]) =>
    Array.from({ length: count }, () => caseAt(where, what)),
  );
const hoursOf = (hours: Readonly<Record<string, number>>) => new Map(Object.entries(hours));
const rowOf = (counts: Readonly<Record<string, number>>, hours: Readonly<Record<string, number>>, id = 'A') =>
  compareEach(cases(counts), hoursOf(hours)).rows.find(({ where }) => where === id);

describe('B5: a printer is held against the others', () => {
  it('four cases all on one of two alike: 1 in 16, with none expected', () => {
    expect(rowOf({ A: 4 }, { A: 100, B: 100 })).toMatchObject({ chance: 0.0625, expectedCount: 0 });
  });

  it('two printers: the conditional test of two Poisson rates, statistics.yaml two-printers', () => {
    const { p_one_sided } = referenceValue<{ p_one_sided: number }>('statistics', 'two-printers');
    const row = rowOf({ A: 9, B: 3 }, { A: 300, B: 400 });
    expect(row?.chance).toBeCloseTo(p_one_sided, 12);
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
    expect(rowOf(counts, hours)?.chance).toBeCloseTo(atLeast(n, 0), 12);
  });

  it('a printer that has all the hours is held against nothing', () => {
    expect(rowOf({ A: 4 }, { A: 100 })).toMatchObject({ chance: 1, expectedCount: 4 });
  });

  it('cases of printers without hours count neither here nor there', () => {
    expect(rowOf({ A: 4, B: 7 }, { A: 100, B: 0, C: 100 })?.chance).toBe(0.0625);
  });

  it('nothing at all gives an empty table', () => {
    expect(compareEach([], new Map())).toEqual({ rows: [], looks: 0, expectedByChance: 0 });
    expect(compareEach([caseAt(null, 'clog')], null).rows).toEqual([]);
  });
});

describe('by cases, where hours by group are not known', () => {
  it('a spool with 4 wet cases of 4 among 8, of which 4 were wet: 1 in 70 (Fisher)', () => {
    const { rows } = compareEach([...cases({ A: 4 }), ...cases({ B: 4 }, 'clog')], null);
    const row = rows.find(({ where, what }) => where === 'A' && what === 'wet-filament');
    expect(row).toMatchObject({ count: 4, exposure: 4, expectedCount: 0 });
    expect(row?.chance).toBeCloseTo(1 / 70, 14);
  });
});

describe('the whole table', () => {
  it('looks count pairs without a case, but no cause that was met once', () => {
    const hours = hoursOf({ A: 100, B: 100, C: 100 });
    const { looks, rows } = compareEach([...cases({ A: 6 }), ...cases({ B: 1 }, 'clog')], hours);
    expect(looks).toBe(3);
    const [first] = rows;
    expect(first?.adjustedChance).toBeCloseTo(3 * binomialAtLeast(6, 6, 1 / 3), 14);
    expect(first?.standing).toBe('stands-out');
    expect(rows.find(({ what }) => what === 'clog')).toMatchObject({
      adjustedChance: 1,
      standing: 'could-be-chance',
    });
  });

  it('says how many of those that stand out are expected to be chance', () => {
    const hours = hoursOf({ A: 100, B: 100, C: 100, D: 100 });
    const { rows, expectedByChance } = compareEach(
      [...cases({ A: 9, B: 1 }), ...cases({ B: 9 }, 'clog')],
      hours,
    );
    expect(rows.filter(({ standing }) => standing === 'stands-out').length).toBe(2);
    expect(expectedByChance).toBeCloseTo(0.2, 12);
  });

  it('a case with two causes counts once for each, and once for the printer', () => {
    const { rows } = compareEach(
      [caseAt('A', 'clog', 'wet-filament', ANY_FAULT), caseAt('A', 'clog', 'clog', ANY_FAULT)],
      hoursOf({ A: 1, B: 1 }),
    );
    expect(Object.fromEntries(rows.map(({ what, count }) => [what, count]))).toEqual({
      clog: 2,
      'wet-filament': 1,
      [ANY_FAULT]: 2,
    });
  });
});

it('a short record leans on the others, a long one keeps its own', () => {
  const rates = leaningRates(
    new Map([
      ['A', 3],
      ['B', 40],
      ['C', 12],
    ]),
    hoursOf({ A: 20, B: 1000, C: 1000, D: 1000 }),
  );
  expect(rates.get('A')).toBeLessThan(0.15);
  expect(rates.get('A')).toBeGreaterThan(0.03);
  expect(rates.get('B')).toBeCloseTo(0.04, 2);
  expect(rates.get('D')).toBeGreaterThan(0);
  expect(leaningRates(new Map(), hoursOf({ A: 20 })).size).toBe(0);
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
