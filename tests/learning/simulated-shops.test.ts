import { describe, expect, it } from 'vitest';
import { CAUSE_NOT_IN_GUIDE } from '../../src-core/knowledge/compile.ts';
import { ownExperience, type ConfirmedCase } from '../../src-core/learning/own-experience.ts';
import { gammaQuantile } from '../../src-core/statistics/gamma-distribution.ts';
import { drawIndex, seededRandom, type Random } from '../../src-core/training/seeded-random.ts';
import { isNightly } from '../nightly.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const SHOPS = isNightly ? 1000 : 120;
const NEXT = 100;
const ids = [...knowledge.causes.keys()];
const unknown = ids.indexOf(CAUSE_NOT_IN_GUIDE);

/** What the guide expects, as shares of all cases with a cause of the guide. */
const guide = sharesOf(
  knowledge.priorsUnder({}).priors.map((prior, index) => (index === unknown ? 0 : prior)),
);

function sharesOf(weights: readonly number[]): readonly number[] {
  const sum = weights.reduce((total, one) => total + one, 0);
  return weights.map((one) => one / sum);
}

/** Shops that differ from the guide as shops do: some causes hardly ever, some several times as often. */
const SHOPS_ARE: Readonly<Record<string, (random: Random) => number>> = {
  'with rates as the model takes them (gamma, shape 2)': (random) =>
    gammaQuantile({ shape: 2, rate: 2 }, Math.min(0.9999, Math.max(0.0001, random()))),
  'with wilder rates (log-normal, sigma 1)': (random) =>
    Math.exp(Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())),
  'exactly as the guide says': () => 1,
};

const draw = (shares: readonly number[], random: Random, count: number): number[] =>
  Array.from({ length: count }, () => drawIndex(shares, random));

/** Mean of -ln of the share given to what came (nats): proper (Good 1952), lower is better. */
const logScoreOf = (shares: readonly number[], came: readonly number[]) =>
  came.reduce((sum, index) => sum - Math.log(shares[index] ?? 0), 0) / came.length;

/** How much better the guide with own experience scores the next cases than the bare guide, on average over shops. */
function gainAfter(cases: number, rateOf: (random: Random) => number): number {
  let gain = 0;
  for (let shop = 0; shop < SHOPS; shop++) {
    const random = seededRandom(7919 * shop + cases);
    const truth = sharesOf(guide.map((share) => share * rateOf(random)));
    const seen = draw(truth, random, cases).map((index): ConfirmedCase => ({
      printerId: null,
      causes: [ids[index] ?? ''],
      conditions: {},
    }));
    const factor = new Map(ownExperience(knowledge, seen).map((one) => [one.cause, one.timesOdds]));
    const own = sharesOf(guide.map((share, index) => share * (factor.get(ids[index] ?? '') ?? 1)));
    const next = draw(truth, random, NEXT);
    gain += logScoreOf(guide, next) - logScoreOf(own, next);
  }
  return gain / SHOPS;
}

describe('simulated shops', () => {
  it.each(Object.entries(SHOPS_ARE).slice(0, 2))(
    '%s: 200 closed cases foretell the next 100 better than the bare guide, 10 no worse',
    (_, rateOf) => {
      expect(gainAfter(200, rateOf)).toBeGreaterThan(0.05);
      expect(gainAfter(10, rateOf)).toBeGreaterThan(-0.005);
    },
  );

  it('that are exactly as the guide says lose next to nothing by counting their own cases', () => {
    const rateOf = SHOPS_ARE['exactly as the guide says'] ?? (() => 1);
    expect(gainAfter(200, rateOf)).toBeGreaterThan(-0.12);
    expect(gainAfter(10, rateOf)).toBeGreaterThan(-0.02);
  });

  it('hold the true factor inside the 90 % limits about nine times in ten, where rates are as the model takes them', () => {
    const rateOf = Object.values(SHOPS_ARE)[0] ?? (() => 1);
    let inside = 0;
    let asked = 0;
    for (let shop = 0; shop < SHOPS; shop++) {
      const random = seededRandom(31 * shop + 5);
      const rates = guide.map(() => rateOf(random));
      // Poisson counts: each cause comes by itself, so that the factor itself is what the cases follow.
      const truth = sharesOf(guide.map((share, index) => share * (rates[index] ?? 1)));
      const scale = guide.reduce((sum, share, index) => sum + share * (rates[index] ?? 1), 0);
      const seen = draw(truth, random, Math.round(200 * scale)).map((index): ConfirmedCase => ({
        printerId: null,
        causes: [ids[index] ?? ''],
        conditions: {},
      }));
      const total = seen.length;
      for (const { cause, low, high } of ownExperience(knowledge, seen)) {
        const rate = ((rates[ids.indexOf(cause)] ?? 1) * 200) / total;
        asked++;
        if (rate >= low && rate <= high) inside++;
      }
    }
    expect(inside / asked).toBeGreaterThan(0.88);
    expect(inside / asked).toBeLessThan(0.92);
  });
});
