import { describe, expect, it } from 'vitest';
import { compareGroups } from '../../src-core/recurrence/compare-groups.ts';
import type { CountedCase } from '../../src-core/recurrence/tally.ts';
import { rateChange } from '../../src-core/statistics/change-point.ts';
import { weightsThatStand } from '../../src-core/statistics/false-discovery.ts';
import { garwoodLimits } from '../../src-core/statistics/garwood-limits.ts';
import { compareRates } from '../../src-core/statistics/rate-comparison.ts';
import { chanceToTell, exposureToTell } from '../../src-core/statistics/rate-power.ts';
import { seededRandom, type Random } from '../../src-core/training/seeded-random.ts';
import { isNightly } from '../nightly.ts';

/** Shops of known rates, each a year: six printers, ten causes. More of them at night. */
const SHOPS = isNightly ? 5000 : 1000;
/** Draws for intervals, where one costs little. */
const DRAWS = isNightly ? 20_000 : 4000;

function poisson(mean: number, random: Random): number {
  let count = 0;
  for (let left = Math.log(random()); (left += mean) > 0; left += Math.log(random()) - mean) count++;
  return count;
}

const HOURS = [3100, 2300, 1800, 1100, 4500, 700];
const CAUSES = Array.from({ length: 10 }, (_, i) => `cause-${i}`);

interface Told extends CountedCase {
  readonly what: readonly string[];
}

/** A year of a shop; the first three causes come `factor` times as often on one printer each. */
function shopYear(random: Random, factor: number): Told[] {
  const cases: Told[] = [];
  CAUSES.forEach((cause, c) => {
    // From two to twenty cases a year in the whole shop.
    const shopRate = (2 + 2 * c) / 13_500;
    HOURS.forEach((hours, printer) => {
      const isHabit = c >= 7 && printer === c - 7;
      const count = poisson(hours * shopRate * (isHabit ? factor : 1), random);
      for (let i = 0; i < count; i++)
        cases.push({
          openedMs: 0,
          where: String(printer),
          what: [cause],
          minutesLost: 1,
          gramsScrapped: 1,
        });
    });
  });
  return cases;
}

const hours = new Map(HOURS.map((one, printer) => [String(printer), one]));
const isHabit = (row: { where: string; what: string }) =>
  Number(row.what.slice(6)) >= 7 && Number(row.where) === Number(row.what.slice(6)) - 7;

/** Shares of alarms in so many simulated shops. */
function alarms(factor: number, seed: number) {
  const random = seededRandom(seed);
  let shopsWithFalse = 0;
  let falseShares = 0;
  let found = 0;
  for (let shop = 0; shop < SHOPS; shop++) {
    const rows = compareGroups(shopYear(random, factor), hours, ({ what }) => what).rows.filter(
      ({ standing }) => standing === 'stands-out',
    );
    const wrong = rows.filter((row) => factor === 1 || !isHabit(row)).length;
    if (wrong > 0) shopsWithFalse++;
    if (rows.length > 0) falseShares += wrong / rows.length;
    found += rows.length - wrong;
  }
  return {
    shopsWithFalse: shopsWithFalse / SHOPS,
    falseShare: falseShares / SHOPS,
    power: found / (3 * SHOPS),
  };
}

/** Three standard errors of a share near `share` over so many draws: what the simulation itself may miss. */
const slack = (share: number, draws: number) => 3 * Math.sqrt((share * (1 - share)) / draws);

describe(`${SHOPS} simulated shops: what stands out`, () => {
  it('where all printers are alike, at most one shop in ten sees a false alarm', () => {
    const { shopsWithFalse } = alarms(1, 1101);
    expect(shopsWithFalse).toBeLessThan(0.1 + slack(0.1, SHOPS));
    // It is not silent by being blind.
    expect(shopsWithFalse).toBeGreaterThan(0);
  });

  it('where some come back, at most a tenth of the alarms is false, and the stronger the habit the surer it is found', () => {
    const powers = [2, 4, 8].map((factor) => {
      const { falseShare, power } = alarms(factor, 1102 + factor);
      expect(falseShare).toBeLessThan(0.1 + slack(0.1, SHOPS));
      return power;
    });
    const [twice = NaN, fourTimes = NaN, eightTimes = NaN] = powers;
    expect(twice).toBeLessThan(fourTimes);
    expect(fourTimes).toBeLessThan(eightTimes);
    expect(eightTimes).toBeGreaterThan(0.9);
  });
});

describe(`intervals over ${DRAWS} draws`, () => {
  it('a rate lies within its 95 % limits at least as often as they say, near 95 % where there is much to count', () => {
    const random = seededRandom(1110);
    for (const [mean, most] of [
      [3, 1],
      [100, 0.965],
    ] as const) {
      let within = 0;
      for (let draw = 0; draw < DRAWS; draw++) {
        const { low, high } = garwoodFor(poisson(mean, random));
        if (low <= mean && mean <= high) within++;
      }
      expect(within / DRAWS).toBeGreaterThan(0.95 - slack(0.95, DRAWS));
      expect(within / DRAWS).toBeLessThanOrEqual(most);
    }
  });

  it('before and after: the ratio lies within its limits 95 +- 1.5 % of the time', () => {
    const random = seededRandom(1111);
    const draws = DRAWS / 2;
    let within = 0;
    for (let draw = 0; draw < draws; draw++) {
      const ratio = Math.exp((random() - 0.5) * 2.4);
      const before = { count: poisson(120, random), exposure: 1200 };
      const after = { count: poisson(100 * ratio, random), exposure: 1000 };
      const { low, high } = compareRates(after, before);
      if (low <= ratio && ratio <= high) within++;
    }
    expect(Math.abs(within / draws - 0.95)).toBeLessThan(0.015 + slack(0.95, draws) / 3);
  });
});

const kept = new Map<number, { low: number; high: number }>();
function garwoodFor(count: number) {
  const known = kept.get(count) ?? garwoodLimits(count);
  kept.set(count, known);
  return known;
}

describe(`since when, over ${SHOPS} simulated shops`, () => {
  const EXPOSURE = 3000;
  /** Cases at even places, `before` in the first part and the rest in the second. */
  const places = (random: Random, mean: number, at: number, ratio: number) => {
    const share = at / EXPOSURE;
    const rate = mean / (EXPOSURE * (share + (1 - share) * ratio));
    return [
      ...Array.from({ length: poisson(rate * at, random) }, () => random() * at),
      ...Array.from(
        { length: poisson(rate * ratio * (EXPOSURE - at), random) },
        () => at + random() * (EXPOSURE - at),
      ),
    ];
  };

  it('date and ratio lie within their intervals 95 +- 1.5 % of the time', () => {
    const random = seededRandom(1120);
    const draws = isNightly ? 4000 : 1500;
    let [dated, sized, counted] = [0, 0, 0];
    for (let draw = 0; draw < draws; draw++) {
      const at = random() * EXPOSURE;
      const ratio = Math.exp((2 * random() - 1) * Math.log(10));
      const change = rateChange(places(random, 40, at, ratio), EXPOSURE);
      if (!change) continue;
      counted++;
      if (change.low <= at && at <= change.high) dated++;
      if (change.ratioLow <= ratio && ratio <= change.ratioHigh) sized++;
    }
    const allowed = 0.015 + slack(0.95, counted) / 3;
    expect(Math.abs(dated / counted - 0.95)).toBeLessThan(allowed);
    expect(Math.abs(sized / counted - 0.95)).toBeLessThan(allowed);
  });

  it('where nothing changed, a clear weight is as rare as it says, and one look in many raises no alarm', () => {
    const random = seededRandom(1121);
    let [clear, shopsWithFalse] = [0, 0];
    for (let shop = 0; shop < SHOPS; shop++) {
      const weights = HOURS.map(() => rateChange(places(random, 15, 1500, 1), EXPOSURE)?.weight ?? 0);
      clear += weights.filter((weight) => weight >= 20).length;
      if (weightsThatStand(weights, 0.1).includes(true)) shopsWithFalse++;
    }
    const looks = SHOPS * HOURS.length;
    expect(clear / looks).toBeLessThan(0.05 + slack(0.05, looks));
    expect(shopsWithFalse / SHOPS).toBeLessThan(0.1 + slack(0.1, SHOPS));
  });

  it('a strong change is found more often than a weak one', () => {
    const random = seededRandom(1122);
    const power = (ratio: number) => {
      let found = 0;
      for (let shop = 0; shop < SHOPS; shop++)
        if ((rateChange(places(random, 40, 1500, ratio), EXPOSURE)?.weight ?? 0) >= 20) found++;
      return found / SHOPS;
    };
    const [weak, strong] = [power(0.6), power(0.15)];
    expect(weak).toBeLessThan(0.5);
    expect(strong).toBeGreaterThan(0.9);
  });
});

it('what is said of when a change can be told comes true', () => {
  const random = seededRandom(1130);
  const before = { count: 30, exposure: 1000 };
  const exposure = exposureToTell(before, 0.5);
  if (exposure === null) throw new Error('30 cases are enough for a half');
  const promised = chanceToTell(before, 0.5, exposure);
  let told = 0;
  for (let draw = 0; draw < DRAWS / 4; draw++)
    if (compareRates({ count: poisson(0.015 * exposure, random), exposure }, before).high < 1) told++;
  expect(Math.abs(told / (DRAWS / 4) - promised)).toBeLessThan(slack(promised, DRAWS / 4));
});
