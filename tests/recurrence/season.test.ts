import { describe, expect, it } from 'vitest';
import type { RoomClimate } from '../../src-core/contract/spool-life.ts';
import { STEAM_MECHANISM, steamCauses } from '../../src-core/moisture/steam-causes.ts';
import type { ClosedCase } from '../../src-core/recurrence/report.ts';
import { seasonOf } from '../../src-core/recurrence/season.ts';
import { shopCalendar } from '../../src-core/recurrence/shop-calendar.ts';
import { seededRandom, type Random } from '../../src-core/training/seeded-random.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const FROM = Date.parse('2025-01-01T00:00:00Z');
const TO = Date.parse('2026-01-01T00:00:00Z');
const calendar = shopCalendar('UTC');
/** A year in a cellar: damp in summer. */
const DAMP = [40, 42, 45, 50, 56, 63, 68, 66, 58, 50, 44, 41];
const byMonth: RoomClimate = {
  kind: 'by-month',
  months: DAMP.map((percentRh) => ({ temperatureC: 20, percentRh })),
};
const hours = [{ fromMs: FROM, toMs: TO, hours: 6000 }];

function casesOf(counts: readonly number[], cause: string): ClosedCase[] {
  return counts.flatMap((count, month) =>
    Array.from({ length: count }, (_, n) => ({
      caseId: `${cause} ${month} ${n}`,
      openedMs: Date.UTC(2025, month, 1 + (n % 27), 12),
      printerId: 'A',
      causes: [cause],
      practice: null,
      minutesLost: 10,
      gramsScrapped: 1,
      where: 'A',
    })),
  );
}
const season = (
  moist: readonly number[],
  rest: readonly number[],
  more: Partial<Parameters<typeof seasonOf>[0]> = {},
) =>
  seasonOf({
    cases: [...casesOf(moist, 'wet'), ...casesOf(rest, 'clog')],
    isMoisture: ({ causes }) => causes.includes('wet'),
    stretches: hours,
    calendar,
    fromMs: FROM,
    toMs: TO,
    climate: byMonth,
    entered: {},
    ...more,
  });
const flat = DAMP.map(() => 4);

describe('season against humidity', () => {
  it('counts both kinds by month with the humidity and where it comes from', () => {
    const found = season([0, 0, 1, 1, 2, 4, 5, 4, 2, 1, 0, 0], flat, { entered: { '2025-07': 71.5 } });
    expect(found.months).toHaveLength(12);
    expect(found.months[6]).toMatchObject({
      month: '2025-07',
      percentRh: 71.5,
      source: 'entered',
      moisture: 5,
      rest: 4,
    });
    expect(found.months[0]).toMatchObject({ percentRh: 40, source: 'typical', moisture: 0, rest: 4 });
    expect(found.months[0]?.printHours).toBeCloseTo((6000 * 31) / 365, 6);
  });

  it('tells that moisture-related cases go with damp months where the others do not', () => {
    const found = season([0, 0, 1, 1, 2, 4, 5, 4, 2, 1, 0, 0], [4, 5, 3, 4, 5, 4, 3, 4, 5, 4, 3, 4]);
    expect([found.verdict, found.against, found.used]).toEqual(['with-humidity', 'print-hours', 12]);
    expect(found.moisture?.coefficient).toBeGreaterThan(0.8);
    expect(found.moisture?.chance).toBeLessThan(0.01);
    // Above 50 %: May to September with 17 cases, the others with 3.
    expect(found.halves).toMatchObject({
      above: 50,
      damp: { months: 5, count: 17 },
      dry: { months: 7, count: 3 },
    });
    expect(found.halves?.low).toBeGreaterThan(1);
  });

  it('says when the others rise alike, when it is the other way round, and when chance will do', () => {
    const rising = [0, 0, 1, 1, 2, 4, 5, 4, 2, 1, 0, 0];
    expect(
      season(
        rising,
        rising.map((one) => 3 + 2 * one),
      ).verdict,
    ).toBe('both');
    expect(
      season(
        rising.map((one) => 5 - one),
        flat,
      ).verdict,
    ).toBe('against-humidity');
    expect(season([1, 0, 2, 1, 0, 1, 0, 1, 2, 0, 1, 2], flat).verdict).toBe('chance');
  });

  it('cannot tell from few months, few cases, or air that is the same all year', () => {
    const moist = [2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2];
    const few = { climate: { kind: 'unknown' as const }, entered: { '2025-01': 40, '2025-07': 68 } };
    expect(season(moist, flat, few)).toMatchObject({ verdict: 'few-months', used: 2, moisture: null });
    expect(season(moist, flat, few).months[1]).toMatchObject({ percentRh: null, source: 'missing' });
    expect(season([0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0], flat).verdict).toBe('few-cases');
    const same = DAMP.map((_, i) => ({ temperatureC: 20, percentRh: 50 + (i % 4) }));
    expect(season(moist, flat, { climate: { kind: 'by-month', months: same } }).verdict).toBe('same-air');
    // One figure for all the year is no season.
    const one = { kind: 'measured' as const, temperatureC: 20, percentRh: 55 };
    expect(season(moist, flat, { climate: one }).months.every(({ source }) => source === 'missing')).toBe(
      true,
    );
  });

  it('holds them against all cases where no hours are on record', () => {
    const found = season([0, 0, 1, 1, 2, 4, 5, 4, 2, 1, 0, 0], flat, { stretches: [] });
    expect([found.against, found.verdict, found.rest, found.halves]).toEqual([
      'cases',
      'with-humidity',
      null,
      null,
    ]);
  });

  it('raises a false alarm in at most about one shop of twenty, also where cases come in clusters', () => {
    const random = seededRandom(7);
    let alarms = 0;
    const shops = 150;
    for (let shop = 0; shop < shops; shop++) {
      // A damp spool makes three cases at once.
      const moist = DAMP.map(() => 3 * poisson(0.7, random));
      const { verdict } = season(
        moist,
        DAMP.map(() => poisson(4, random)),
      );
      if (verdict === 'with-humidity' || verdict === 'both' || verdict === 'against-humidity') alarms++;
    }
    expect(alarms / shops).toBeLessThan(0.1);
  });
});

it('the guide has the mechanism that makes a case moisture-related, and causes behind it', () => {
  const knowledge = shippedKnowledge();
  expect(knowledge.mechanisms.has(STEAM_MECHANISM)).toBe(true);
  const causes = steamCauses(knowledge);
  expect([...causes]).toEqual(
    expect.arrayContaining(['wet-filament', 'desiccant-exhausted', 'uptake-while-printing']),
  );
  expect(causes.has('overdried-brittle')).toBe(false);
});

/** Knuth's way: how many uniform numbers until their product falls below e^-mean. */
function poisson(mean: number, random: Random): number {
  let [count, product] = [0, random()];
  while (product > Math.exp(-mean)) [count, product] = [count + 1, product * random()];
  return count;
}
