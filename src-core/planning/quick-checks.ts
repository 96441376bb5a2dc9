import type { CheckOffer } from './check-sweep.ts';
import { minutesOfCheck } from './check-value.ts';
import type { RepairProblem } from './repair-problem.ts';

/** What counts as a quick check, and when one comes before a remedy that will probably fail. */
export interface QuickCheckRule {
  /** A remedy less likely (0-1) to cure than this waits for a quick check, where one tells the leading causes apart. */
  readonly leastChance: number;
  /** A check that takes at most this long, preparations included, is quick. */
  readonly minutes: number;
  /** It tells the causes apart when its answer is expected to say this much about them, in bits. */
  readonly bits: number;
  /** A look before a remedy that takes much longer must tell at least this much, in bits, and cost at most these minutes more. */
  readonly lookBits: number;
  readonly lookMinutes: number;
  /** What holds the complaint up counts as known from this probability (0-1) on: then a look tells nothing more. */
  readonly known: number;
  /** A check whose likeliest answer leaves less than this (0-1) to all others tells a lead nothing he would bet against. */
  readonly leastDoubt: number;
}

/** The shop can set the chance; the rest is our own. */
export const QUICK_CHECKS: QuickCheckRule = {
  leastChance: 0.25,
  minutes: 10,
  bits: 0.04,
  lookBits: 0.2,
  lookMinutes: 2,
  known: 0.7,
  leastDoubt: 0.15,
};

/** Bits per minute count this many minutes for the asking itself. */
const ASKING_MINUTES = 2;

/** How much a check tells for the time it takes: bits a minute, the asking included. */
export function bitsPerMinute(bits: number, minutes: number): number {
  return bits / (minutes + ASKING_MINUTES);
}

/** Indices of the quick checks that tell most for their time by their rough forecasts, best first, `count` at most. */
export function tellingQuickChecks(
  problem: RepairProblem,
  offers: readonly CheckOffer[],
  rule: QuickCheckRule,
  count: number,
): readonly number[] {
  const chances = Float64Array.of(
    ...problem.scenarios.map(({ probability }) => probability),
    problem.unresolved,
  );
  const widest = offers.reduce((most, { levelCount }) => Math.max(most, levelCount), 0);
  const forecast = new Float64Array(chances.length * widest);
  return offers
    .flatMap((offer, index) => {
      const minutes = minutesOfCheck(problem, offer);
      if (minutes > rule.minutes) return [];
      offer.forecast(forecast);
      const bits = informationBits(chances, forecast, offer.levelCount);
      const worth = bitsPerMinute((offer.trust ?? 1) * bits, minutes);
      return bits < rule.bits ? [] : [{ index, worth }];
    })
    .sort((a, b) => b.worth - a.worth)
    .slice(0, count)
    .map(({ index }) => index);
}

/** Mutual information, in bits, of row and answer; `forecast[row * levels + level]`. */
function informationBits(chances: Float64Array, forecast: Float64Array, levels: number): number {
  let bits = 0;
  for (let level = 0; level < levels; level++) {
    let mean = 0;
    chances.forEach((p, row) => (mean += p * (forecast[row * levels + level] ?? 0)));
    if (!(mean > 0)) continue;
    chances.forEach((p, row) => {
      const q = forecast[row * levels + level] ?? 0;
      if (p > 0 && q > 0) bits += p * q * Math.log2(q / mean);
    });
  }
  return Math.max(0, bits);
}
