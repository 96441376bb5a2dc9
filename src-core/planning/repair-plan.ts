import { cheapestOrder } from './cheapest-order.ts';
import { requireProblem, type RepairProblem } from './repair-problem.ts';
import { repairTables, RepairState, type RemedyRow, type RepairTables } from './repair-tables.ts';

export interface RepairPlan {
  /** Indices of remedies, first to last; after the last comes the service call. */
  readonly order: readonly number[];
  /** Expected cost of repair in minutes, service call included. */
  readonly expectedMinutes: number;
  /** True when no order of the useful remedies is cheaper; false when only searched locally. */
  readonly isOptimal: boolean;
  /** Probability that it comes to the service call. */
  readonly serviceProbability: number;
}

/**
 * Expected cost of repair of a fixed order: sum over steps of minutes times the probability that the complaint
 * is still there before the step, and the service call for what is left (Heckerman, Breese & Rommelse, Comm. ACM
 * 38(3) (1995)). A remedy's outcomes on different causes, and those of different remedies, are independent
 * given the scenario.
 *
 * `order` holds indices into `problem.remedies`. Infinity when the order leaves a chance of no repair and there
 * is no service.
 */
export function expectedCostOfRepair(problem: RepairProblem, order: readonly number[]): number {
  requireProblem(problem);
  const tables = repairTables(problem);
  const rows = new Map(tables.remedies.map((row) => [row.index, row]));
  const state = startOf(problem, tables);
  let total = 0;
  for (const index of order) {
    const remedy = problem.remedies[index];
    if (!remedy)
      throw new RangeError(`order names remedy ${index}, but there are ${problem.remedies.length}`);
    const row = rows.get(index);
    // A remedy that touches no scenario still takes its minutes.
    total += state.persists * (row ? state.minutes(row) : remedy.minutes);
    if (row) state.apply(row);
  }
  return total + serviceCost(tables, state.persists);
}

/**
 * Order of remedies of small expected cost. Starts from chance over cost with updating (optimal for one fault,
 * one remedy a fault: Kadane & Simon, Ann. Statist. 5 (1977)). In general the problem is NP-hard (Vomlelova &
 * Vomlel, Soft Computing 7 (2003)): few useful remedies are searched in full, more by local improvement, so the
 * result never costs more than the chance-over-cost order.
 */
export function planRemedies(problem: RepairProblem): RepairPlan {
  requireProblem(problem);
  const tables = repairTables(problem);
  const probabilities = Float64Array.from(problem.scenarios, (scenario) => scenario.probability);
  const { order, expectedMinutes, isOptimal } = cheapestOrder(tables, probabilities, problem.unresolved);
  const state = startOf(problem, tables);
  for (const row of order) state.apply(row);
  return {
    order: order.map((row: RemedyRow) => row.index),
    expectedMinutes,
    isOptimal,
    serviceProbability: state.persists,
  };
}

function startOf(problem: RepairProblem, tables: RepairTables): RepairState {
  const probabilities = Float64Array.from(problem.scenarios, (scenario) => scenario.probability);
  return new RepairState(tables, probabilities, problem.unresolved);
}

/** Minutes expected for the service call; a call that is never reached costs nothing even if it is impossible. */
export function serviceCost(tables: RepairTables, persists: number): number {
  return persists === 0 ? 0 : persists * tables.serviceMinutes;
}
