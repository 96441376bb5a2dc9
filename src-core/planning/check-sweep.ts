import { chanceOverCostOrder } from './chance-over-cost.ts';
import { minutesOfCheck, type Check, type TablesNow } from './check-value.ts';
import type { RepairProblem } from './repair-problem.ts';
import { RepairState, type RemedyRow, type RepairTables } from './repair-tables.ts';

/** An open check whose forecast is written into a table of the caller's, so that a sweep over hundreds makes no waste. */
export interface CheckOffer extends Pick<Check, 'id' | 'minutes' | 'preparations'> {
  readonly levelCount: number;
  /** into[row * levelCount + level]: probability of each answer in each scenario; the last row when none holds. */
  forecast(into: Float64Array): void;
  /** The check in full, with better numbers where the forecast is approximate. */
  inFull(): Check;
}

/**
 * The checks that deserve a full look: indices of the `count` cheapest by the chance-over-cost rule, cheapest first.
 *
 * Most checks need no look at all. The least expected cost V is a concave function of the scenarios' weights that
 * scales with them, so a split never costs less than its parts. Of an answer, the share that all scenarios give alike
 * is worth what acting now is worth, and the rest at best what certainty is worth: with
 * R = sum over answers of min over scenarios of P(answer | scenario), no check costs less than
 * minutes + R V + (1 - R) (cost with the scenario known). Checks are looked at by rising bound until it passes the
 * worst of those kept.
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
  const forecast = new Float64Array(rows * levels);
  const certain = Math.min(actNowMinutes, costWhenCertain(now, problem.unresolved));
  const bounds = new Float64Array(offers.length);
  offers.forEach((offer, index) => {
    offer.forecast(forecast);
    const alike = sharedPart(forecast, offer.levelCount, probabilities, problem.unresolved);
    bounds[index] = minutesOfCheck(problem, offer) + alike * actNowMinutes + (1 - alike) * certain;
  });
  const byBound = Int32Array.from(bounds.keys()).sort((a, b) => (bounds[a] as number) - (bounds[b] as number));
  const weights = new Float64Array(rows - 1);
  const state = new RepairState(few, weights, 0);
  const score = few.hasJointScenarios ? 'progress' : 'gain';
  const kept: { index: number; cost: number }[] = [];
  for (const index of byBound) {
    const offer = offers[index] as CheckOffer;
    if (kept.length === count && (bounds[index] as number) >= (kept.at(-1)?.cost ?? Infinity)) break;
    offer.forecast(forecast);
    let cost = minutesOfCheck(problem, offer);
    for (let level = 0; level < offer.levelCount; level++) {
      for (let s = 0; s < rows - 1; s++) {
        weights[s] = (probabilities[s] as number) * (forecast[s * offer.levelCount + level] as number);
      }
      const unresolved = problem.unresolved * (forecast[(rows - 1) * offer.levelCount + level] as number);
      state.restart(weights, unresolved);
      cost += chanceOverCostOrder(few, weights, unresolved, score, state).expectedMinutes;
    }
    let at = kept.length;
    while (at > 0 && (kept[at - 1]?.cost ?? 0) > cost) at--;
    if (at >= count) continue;
    kept.splice(at, 0, { index, cost });
    kept.length = Math.min(kept.length, count);
  }
  return kept.map(({ index }) => index);
}

/** Sum over answers of the least chance that any possible scenario gives them. */
function sharedPart(
  forecast: Float64Array,
  levelCount: number,
  probabilities: Float64Array,
  unresolved: number,
): number {
  const rows = probabilities.length + 1;
  let sum = 0;
  for (let level = 0; level < levelCount; level++) {
    let least = Infinity;
    for (let s = 0; s < rows; s++) {
      if ((s === rows - 1 ? unresolved : (probabilities[s] as number)) === 0) continue;
      least = Math.min(least, forecast[s * levelCount + level] as number);
    }
    sum += least;
  }
  return Math.min(1, sum);
}

/**
 * A bound from below on the expected minutes with the scenario known: no sequence of remedies ends a scenario at
 * fewer minutes than its best ratio of minutes to chance, nor for more than the service call.
 */
function costWhenCertain({ tables, probabilities }: TablesNow, unresolved: number): number {
  const least = new Float64Array(tables.scenarioCount).fill(tables.serviceMinutes);
  for (const row of tables.remedies) {
    for (const s of row.scenarios) least[s] = Math.min(least[s] as number, row.minutes / mostChance(tables, row, s));
  }
  return least.reduce(
    (sum, minutes, s) => sum + (probabilities[s] === 0 ? 0 : (probabilities[s] as number) * minutes),
    unresolved === 0 ? 0 : unresolved * tables.serviceMinutes,
  );
}

/** Most that a remedy can do for a scenario: 1 where it takes several causes, whatever else has been done. */
function mostChance({ start, causeSlots }: RepairTables, row: RemedyRow, scenario: number): number {
  const from = start[scenario] as number;
  if ((start[scenario + 1] as number) - from > 1) return 1;
  return 1 - (row.stays[row.slots.indexOf(causeSlots[from] as number)] ?? 0);
}
