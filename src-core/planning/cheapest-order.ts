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
  let best: Pick<FoundOrder, 'order' | 'expectedMinutes'> = greedy;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = best.expectedMinutes;
    const pool = candidates(tables, best.order, probabilities, unresolved);
    const exact = cheapestByEnumeration(tables, pool, probabilities, unresolved);
    if (exact.expectedMinutes < best.expectedMinutes) best = exact;
    best = improveLocally(tables, best.order, state);
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
  state: RepairState,
): Pick<FoundOrder, 'order' | 'expectedMinutes'> {
  let order = [...start];
  let expectedMinutes = costFrom(state, tables, order);
  const trial: RemedyRow[] = [];
  const consider = (): boolean => {
    const minutes = costFrom(state, tables, trial, expectedMinutes);
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
    let bounds = new InsertionBounds(tables, state, order, expectedMinutes);
    for (const row of tables.remedies) {
      if (order.includes(row)) continue;
      for (let at = 0; at <= order.length; at++) {
        let isBetter = false;
        if (bounds.mayHelp(row, at)) {
          lay(order, row, at);
          isBetter = consider();
        }
        if (!isBetter && at < order.length && bounds.mayHelpInsteadOf(row, at)) {
          lay(order, row, -1);
          trial[at] = row;
          isBetter = consider();
        }
        if (!isBetter) continue;
        bounds = new InsertionBounds(tables, state, order, expectedMinutes);
        break;
      }
    }
    if (before - expectedMinutes <= LEAST_GAIN_MINUTES) break;
  }
  return { order, expectedMinutes };
}

/**
 * What a further remedy may save at most at each position of an order: no more than the chance that it touches at all, times
 * all minutes that come after it. Where that is less than its own minutes the order need not be costed.
 */
class InsertionBounds {
  private readonly tables: RepairTables;
  private readonly expectedMinutes: number;
  /** By position: chance that the complaint is still there, and by scenario with that. */
  private readonly persists: number[] = [];
  private readonly held: Float64Array[] = [];
  /** Minutes of the remedies from each position on and of the service call. */
  private readonly minutesAfter: number[] = [];
  /** Cost of the order without the remedy at each position, worked out when asked for. */
  private readonly withoutOne: (number | undefined)[] = [];
  private readonly state: RepairState;
  private readonly order: readonly RemedyRow[];

  constructor(
    tables: RepairTables,
    state: RepairState,
    order: readonly RemedyRow[],
    expectedMinutes: number,
  ) {
    this.tables = tables;
    this.state = state;
    this.order = order;
    this.expectedMinutes = expectedMinutes;
    state.reset();
    for (const row of order) {
      this.keep(state);
      state.apply(row);
    }
    this.keep(state);
    let minutes = tables.serviceMinutes;
    const allMinutes = (row: RemedyRow) =>
      row.preparations.reduce((sum, name) => sum + (tables.preparationMinutes[name] ?? 0), row.minutes);
    for (let at = order.length; at >= 0; at--) {
      this.minutesAfter[at] = minutes;
      minutes += order[at - 1] ? allMinutes(order[at - 1] as RemedyRow) : 0;
    }
  }

  mayHelp(row: RemedyRow, at: number): boolean {
    if (row.preparations.length > 0) return true;
    return this.savedAtMost(row, at) > (this.persists[at] as number) * row.minutes;
  }

  /** The same in the place of the remedy at `at`. */
  mayHelpInsteadOf(row: RemedyRow, at: number): boolean {
    if (row.preparations.length > 0) return true;
    const without = (this.withoutOne[at] ??= this.costWithout(at));
    const cost = without + (this.persists[at] as number) * row.minutes - this.savedAtMost(row, at);
    return !(cost >= this.expectedMinutes);
  }

  private costWithout(at: number): number {
    const rest = this.order.filter((_, k) => k !== at);
    const cost = costFrom(this.state, this.tables, rest);
    // Where another comes after the one left out, the rest alone is no order: nothing is known.
    return cost === Infinity ? -Infinity : cost;
  }

  private savedAtMost({ scenarios }: RemedyRow, at: number): number {
    const held = this.held[at] as Float64Array;
    let touched = 0;
    for (let k = 0; k < scenarios.length; k++) touched += held[scenarios[k] as number] as number;
    return touched * (this.minutesAfter[at] as number);
  }

  private keep(state: RepairState): void {
    this.persists.push(state.persists);
    this.held.push(state.chances());
  }
}
