import { efficiencyOrder } from './efficiency-order.ts';
import { minutesOfCheck, type Check, type TablesNow } from './check-value.ts';
import type { RepairProblem } from './repair-problem.ts';
import { RepairState, type RepairTables } from './repair-tables.ts';

/** An open check whose forecast is written into a table of the caller's, so that a sweep over hundreds makes no waste. */
export interface CheckOffer extends Pick<Check, 'id' | 'minutes' | 'preparations'> {
  readonly levelCount: number;
  /** How far (0-1) what it promises to tell and to save is relied on; in full when left out. */
  readonly trust?: number;
  /** into[row * levelCount + level]: probability of each answer in each scenario; the last row when none holds. */
  forecast(into: Float64Array): void;
  /** The check with the same forecast, cut into rows. */
  inFull(): Check;
}

/**
 * The checks that deserve a full look: indices of the `count` cheapest by the chance-over-cost rule, cheapest first.
 *
 * Most checks need no look at all. The least expected cost V is a concave function of the scenarios' weights that
 * scales with them, so a whole never costs less than its parts. Of an answer, the share r that all scenarios give alike
 * costs what acting now costs, and the rest at least what it costs with the scenario known: together
 * r V + sum over scenarios of P(scenario) (P(answer | scenario) - r) (minutes when certain). Checks are looked at by
 * rising bound until it passes the worst of those kept.
 */
export function leadingChecks(
  problem: RepairProblem,
  now: TablesNow,
  actNowMinutes: number,
  few: RepairTables,
  offers: readonly CheckOffer[],
  count: number,
): readonly number[] {
  const { probabilities } = now;
  const rows = probabilities.length + 1;
  const levels = offers.reduce((most, offer) => Math.max(most, offer.levelCount), 0);
  const bounding = new AnswerBounds(now, problem.unresolved, actNowMinutes, levels);
  const { forecast } = bounding;
  const bounds = new Float64Array(offers.length);
  offers.forEach((offer, index) => {
    offer.forecast(forecast);
    bounds[index] = minutesOfCheck(problem, offer) + bounding.read(offer.levelCount);
  });
  const byBound = Int32Array.from(bounds.keys()).sort(
    (a, b) => (bounds[a] as number) - (bounds[b] as number),
  );
  const weights = new Float64Array(rows - 1);
  const state = new RepairState(few, weights, 0);
  const score = few.hasJointScenarios ? 'progress' : 'gain';
  const kept: { index: number; cost: number }[] = [];
  for (const index of byBound) {
    const { levelCount, ...offer } = offers[index] as CheckOffer;
    const limit = kept.length === count ? (kept.at(-1)?.cost ?? 0) : Infinity;
    // What the check costs at least; each answer looked at puts its cost in the place of its bound.
    let cost = bounds[index] as number;
    if (cost >= limit) break;
    offer.forecast(forecast);
    bounding.read(levelCount);
    for (let level = 0; level < levelCount && cost < limit; level++) {
      for (let s = 0; s < rows - 1; s++) {
        weights[s] = (probabilities[s] as number) * (forecast[s * levelCount + level] as number);
      }
      const unresolved = problem.unresolved * (forecast[(rows - 1) * levelCount + level] as number);
      state.restart(weights, unresolved);
      cost += efficiencyOrder(few, weights, unresolved, score, state).expectedMinutes;
      cost -= bounding.ofLevel[level] as number;
    }
    if (cost >= limit) continue;
    let at = kept.length;
    while (at > 0 && (kept[at - 1]?.cost ?? 0) > cost) at--;
    kept.splice(at, 0, { index, cost });
    kept.length = Math.min(kept.length, count);
  }
  return kept.map(({ index }) => index);
}

/** Least expected minutes after each answer of a check, times the chance of the answer; see `leadingChecks`. */
class AnswerBounds {
  /** Where the forecast goes before `read`. */
  readonly forecast: Float64Array;
  readonly ofLevel: Float64Array;
  private readonly chances: Float64Array;
  /** Minutes at the least when each scenario, or none, is known for certain. */
  private readonly certain: Float64Array;
  private readonly certainMinutes: number;
  private readonly actNowMinutes: number;

  constructor(
    { tables, probabilities }: TablesNow,
    unresolved: number,
    actNowMinutes: number,
    levels: number,
  ) {
    this.chances = Float64Array.of(...probabilities, unresolved);
    this.forecast = new Float64Array(this.chances.length * levels);
    this.ofLevel = new Float64Array(levels);
    this.certain = minutesWhenCertain(tables);
    this.actNowMinutes = actNowMinutes;
    this.certainMinutes = this.chances.reduce(
      (sum, p, s) => sum + (p === 0 ? 0 : p * (this.certain[s] as number)),
      0,
    );
  }

  /** Fills `ofLevel` from `forecast`; returns the sum. */
  read(levelCount: number): number {
    const { chances, certain, forecast } = this;
    let sum = 0;
    for (let level = 0; level < levelCount; level++) {
      let shared = Infinity;
      let known = 0;
      for (let s = 0; s < chances.length; s++) {
        const p = chances[s] as number;
        if (p === 0) continue;
        const chance = forecast[s * levelCount + level] as number;
        if (chance < shared) shared = chance;
        known += p * chance * (certain[s] as number);
      }
      const bound = known + shared * Math.max(0, this.actNowMinutes - this.certainMinutes);
      this.ofLevel[level] = bound;
      sum += bound;
    }
    return sum;
  }
}

/**
 * Bounds from below on the expected minutes with the scenario known: no sequence of remedies ends a scenario at fewer
 * minutes than its best ratio of minutes to chance, nor for more than the service call. The last is of no scenario.
 */
function minutesWhenCertain(tables: RepairTables): Float64Array {
  const least = new Float64Array(tables.scenarioCount + 1).fill(tables.serviceMinutes);
  for (const row of tables.remedies) {
    row.singles.forEach((s, k) => {
      least[s] = Math.min(least[s] as number, row.minutes / (row.goes[k] as number));
    });
    // Whatever else has been done: one that takes several causes may lack only this remedy.
    for (const s of row.joints) least[s] = Math.min(least[s] as number, row.minutes);
  }
  return least;
}
