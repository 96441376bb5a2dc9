import { simpleOrder } from './efficiency-order.ts';
import type { FoundOrder } from './found-order.ts';
import { cheapestByEnumeration } from './subset-search.ts';
import { RepairState, withThoseBefore, type RemedyRow, type RepairTables } from './repair-tables.ts';

/** Up to this many useful remedies every order is covered (2^n states). */
export const FULL_SEARCH_REMEDIES = 10;
/** Size of the pool searched in full between rounds of local search. */
const POOL_REMEDIES = 9;
/** Sweeps of local search over the whole order; it has always settled within a few. */
const MOST_SWEEPS = 8;
/** Rounds of full search over a pool followed by local search. */
const MOST_ROUNDS = 3;
/** A gain below this many minutes is rounding. */
const LEAST_GAIN_MINUTES = 1e-9;

/** `probabilities` of scenarios and `unresolved` need not sum to 1; the cost scales with them. */
export function cheapestOrder(
  tables: RepairTables,
  probabilities: Float64Array,
  unresolved: number,
): FoundOrder {
  if (tables.remedies.length <= FULL_SEARCH_REMEDIES) {
    return cheapestByEnumeration(tables, tables.remedies, probabilities, unresolved);
  }
  const state = new RepairState(tables, probabilities, unresolved);
  const promising = withoutHopeless(tables, probabilities, state);
  if (promising.remedies.length > FULL_SEARCH_REMEDIES) {
    return searchLocally(promising, probabilities, unresolved, state);
  }
  const exact = cheapestByEnumeration(promising, promising.remedies, probabilities, unresolved);
  return { ...exact, isOptimal: false };
}

/**
 * Leaves out remedies that are hopelessly dear: handing over all that they might cure costs less than doing them at
 * the very end, when least is left to do them for.
 */
function withoutHopeless(
  tables: RepairTables,
  probabilities: Float64Array,
  state: RepairState,
): RepairTables {
  state.reset();
  for (const row of tables.remedies) state.apply(row);
  const leastPersists = state.persists;
  const isHopeless = (row: RemedyRow) => {
    let touched = 0;
    for (let k = 0; k < row.scenarios.length; k++)
      touched += probabilities[row.scenarios[k] as number] as number;
    return touched * tables.serviceMinutes < leastPersists * row.minutes;
  };
  const remedies = withThoseBefore(
    tables.remedies,
    new Set(tables.remedies.filter((row) => !isHopeless(row))),
  );
  return remedies.length === tables.remedies.length ? tables : { ...tables, remedies };
}

function searchLocally(
  tables: RepairTables,
  probabilities: Float64Array,
  unresolved: number,
  state: RepairState,
): FoundOrder {
  const greedy = simpleOrder(tables, probabilities, unresolved);
  const cost = (order: readonly RemedyRow[], limit: number) => costFrom(state, tables, order, limit);
  let best: Pick<FoundOrder, 'order' | 'expectedMinutes'> = greedy;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = best.expectedMinutes;
    const pool = candidates(tables, best.order, probabilities, unresolved);
    const exact = cheapestByEnumeration(tables, pool, probabilities, unresolved);
    if (exact.expectedMinutes < best.expectedMinutes) best = exact;
    best = improveLocally(tables, best.order, cost);
    if (before - best.expectedMinutes <= LEAST_GAIN_MINUTES) break;
  }
  return { order: best.order, expectedMinutes: best.expectedMinutes, isOptimal: false };
}

/**
 * Remedies for a full search: those in use, filled up with the next by chance over cost. Preparations do not count
 * here, because remedies that share one are worth it together.
 */
function candidates(
  tables: RepairTables,
  inUse: readonly RemedyRow[],
  probabilities: Float64Array,
  unresolved: number,
): readonly RemedyRow[] {
  const state = new RepairState(tables, probabilities, unresolved);
  const others = tables.remedies
    .filter((row) => !inUse.includes(row))
    .map((row) => ({ row, rate: state.progress(row) / row.minutes }))
    .sort((a, b) => b.rate - a.rate);
  let pool = [...inUse, ...others.map(({ row }) => row)]
    .slice(0, Math.max(POOL_REMEDIES, inUse.length))
    .slice(0, FULL_SEARCH_REMEDIES);
  // One left out takes those that come after it along.
  for (;;) {
    const left = pool.filter((row) => row.after.every((index) => pool.some((one) => one.index === index)));
    if (left.length === pool.length) return left;
    pool = left;
  }
}

/** Expected minutes of an order with the service call at its end; Infinity when a remedy stands before one it comes after. */
export function orderCost(
  tables: RepairTables,
  order: readonly RemedyRow[],
  probabilities: Float64Array,
  unresolved: number,
): number {
  return costFrom(new RepairState(tables, probabilities, unresolved), tables, order);
}

/** As `orderCost`; Infinity as soon as it is known to reach `limit`. */
function costFrom(
  state: RepairState,
  tables: RepairTables,
  order: readonly RemedyRow[],
  limit = Infinity,
): number {
  state.reset();
  if (!isInOrder(tables, order)) return Infinity;
  let total = 0;
  for (const row of order) {
    total += state.persists * state.minutes(row);
    if (total >= limit) return Infinity;
    state.apply(row);
  }
  return total + (state.persists === 0 ? 0 : state.persists * tables.serviceMinutes);
}

function isInOrder(tables: RepairTables, order: readonly RemedyRow[]): boolean {
  return order.every((row, k) => {
    if (row.after.length === 0) return true;
    const isEarlier = (one: RemedyRow) => order.lastIndexOf(one, k - 1) >= 0;
    return tables.remedies.every((one) => !row.after.includes(one.index) || (k > 0 && isEarlier(one)));
  });
}

/** Moves, drops, adds and swaps single remedies while that saves minutes. */
function improveLocally(
  tables: RepairTables,
  start: readonly RemedyRow[],
  cost: (order: readonly RemedyRow[], limit: number) => number,
): Pick<FoundOrder, 'order' | 'expectedMinutes'> {
  let order = [...start];
  let expectedMinutes = cost(order, Infinity);
  const trial: RemedyRow[] = [];
  const consider = (): boolean => {
    const minutes = cost(trial, expectedMinutes);
    if (!(minutes < expectedMinutes - LEAST_GAIN_MINUTES)) return false;
    order = [...trial];
    expectedMinutes = minutes;
    return true;
  };
  /** `rest` with `row` put in before position `at`; without it at -1. */
  const lay = (rest: readonly RemedyRow[], row: RemedyRow, at: number): void => {
    trial.length = 0;
    for (let k = 0; k < rest.length; k++) {
      if (k === at) trial.push(row);
      trial.push(rest[k] as RemedyRow);
    }
    if (at === rest.length) trial.push(row);
  };
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    const before = expectedMinutes;
    for (const row of [...order]) {
      const rest = order.filter((each) => each !== row);
      for (let at = -1; at <= rest.length; at++) {
        lay(rest, row, at);
        consider();
      }
    }
    for (const row of tables.remedies) {
      if (order.includes(row)) continue;
      for (let at = 0; at <= order.length; at++) {
        lay(order, row, at);
        if (consider()) break;
        if (at === order.length) break;
        lay(order, row, -1);
        trial[at] = row;
        if (consider()) break;
      }
    }
    if (before - expectedMinutes <= LEAST_GAIN_MINUTES) break;
  }
  return { order, expectedMinutes };
}
