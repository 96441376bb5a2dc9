import { minutesOfCheck, type Check } from './check-value.ts';
import type { RepairProblem } from './repair-problem.ts';
import { fillPrepared, preparationBits, preparationMinutesOf, setsBefore } from './remedy-sets.ts';
import {
  NOTHING_LEFT,
  RepairState,
  withThoseBefore,
  type RemedyRow,
  type RepairTables,
} from './repair-tables.ts';

/** Most remedies of a search: the sets of those done are 2 to their number. */
const MOST_REMEDIES = 7;
const MOST_PREPARATIONS = 31;

/**
 * The best of all policies over a few remedies and a few checks: what to do in every state that answers and failed remedies
 * can lead to, by dynamic programming. A state is which remedies are done and which checks have which answer, nothing else
 * matters: (sets of remedies) times (product of answers + 1) states, at most `mostStates`. Answers of different checks are
 * taken as independent within a scenario. Where remedies and checks do not all fit, the first are taken, and the figures are
 * those of something that can be done: never below the best.
 */
export class PolicySearch {
  private readonly rows: readonly RemedyRow[];
  private readonly checks: readonly Check[];
  private readonly strides: readonly number[];
  private readonly sets: number;
  /** Expected minutes to the end, times the chance of the state: [answers * sets + set]. */
  private readonly toPay: Float64Array;
  private readonly firstCost: { remedies: Float64Array; checks: Float64Array };

  /** `rows` and `checks` with the most promising first; `tables` hold the rows. */
  constructor(
    problem: RepairProblem,
    tables: RepairTables,
    rows: readonly RemedyRow[],
    checks: readonly Check[],
    mostStates: number,
  ) {
    this.rows = rowsThatFit(rows);
    this.sets = 2 ** this.rows.length;
    const strides: number[] = [];
    let combinations = 1;
    this.checks = checks.filter(({ unresolvedLevels }) => {
      const grown = combinations * (unresolvedLevels.length + 1);
      if (grown * this.sets > mostStates || tables.preparationMinutes.length > MOST_PREPARATIONS)
        return false;
      strides.push(combinations);
      combinations = grown;
      return true;
    });
    this.strides = strides;
    this.toPay = new Float64Array(combinations * this.sets);
    this.firstCost = this.solve(problem, tables, combinations);
  }

  /** Expected minutes with this remedy first and the best policy after it; Infinity for one that was not searched. */
  costOfRemedy(row: RemedyRow): number {
    return this.firstCost.remedies[this.rows.indexOf(row)] ?? Infinity;
  }

  /** The same for a check. */
  costOfCheck(check: Check): number {
    return this.firstCost.checks[this.checks.indexOf(check)] ?? Infinity;
  }

  private solve(problem: RepairProblem, tables: RepairTables, combinations: number) {
    const { rows, checks, strides, sets, toPay } = this;
    const scenarioCount = problem.scenarios.length;
    const held = heldAfterSets(problem, tables, rows);
    const masks = setsBefore(rows);
    const needs = rows.map(({ preparations }) => preparationBits(preparations));
    const names = [...(problem.preparations?.keys() ?? [])];
    const checkNeeds = checks.map(({ preparations = [] }) =>
      preparationBits(preparations.map((name) => names.indexOf(name))),
    );
    const preparedBySet = new Int32Array(sets);
    fillPrepared(needs, preparedBySet);
    const alone = checks.map((check) => minutesOfCheck({ ...problem, preparations: new Map() }, check));
    const weights = new Float64Array(scenarioCount);
    const persists = new Float64Array(sets);
    const first = { remedies: new Float64Array(rows.length), checks: new Float64Array(checks.length) };

    for (let answers = combinations - 1; answers >= 0; answers--) {
      const unresolved = this.weigh(problem, answers, weights);
      this.persistsAfterSets(weights, unresolved, held, persists);
      let preparedByChecks = 0;
      checkNeeds.forEach((bits, c) => {
        if (this.answerOf(answers, c) > 0) preparedByChecks |= bits;
      });
      for (let set = sets - 1; set >= 0; set--) {
        const here = persists[set] as number;
        let least = here === 0 ? 0 : here * tables.serviceMinutes;
        const prepared = preparedByChecks | (preparedBySet[set] as number);
        for (let k = 0; k < rows.length; k++) {
          if ((set >> k) & 1 || ((masks[k] as number) & ~set) !== 0) continue;
          const minutes =
            (rows[k] as RemedyRow).minutes + preparationMinutesOf(tables, (needs[k] as number) & ~prepared);
          const cost = here * minutes + (toPay[answers * sets + (set | (1 << k))] as number);
          if (answers === 0 && set === 0) first.remedies[k] = cost;
          if (cost < least) least = cost;
        }
        for (let c = 0; c < checks.length; c++) {
          if (this.answerOf(answers, c) > 0) continue;
          const stride = strides[c] as number;
          let cost =
            here *
            ((alone[c] as number) + preparationMinutesOf(tables, (checkNeeds[c] as number) & ~prepared));
          for (let level = 1; level <= (checks[c] as Check).unresolvedLevels.length; level++)
            cost += toPay[(answers + level * stride) * sets + set] as number;
          if (answers === 0 && set === 0) first.checks[c] = cost;
          if (cost < least) least = cost;
        }
        toPay[answers * sets + set] = least;
      }
    }
    // Remedies that have to wait for others come never first.
    masks.forEach((mask, k) => {
      if (mask !== 0) first.remedies[k] = Infinity;
    });
    return first;
  }

  /** Answer of a check in a combination: 0 while open, its level + 1 after. */
  private answerOf(answers: number, check: number): number {
    const levels = this.checks[check]?.unresolvedLevels.length ?? 0;
    return Math.floor(answers / (this.strides[check] as number)) % (levels + 1);
  }

  /** Fills in the weight of each scenario together with these answers; returns that of the unresolved rest. */
  private weigh(problem: RepairProblem, answers: number, into: Float64Array): number {
    problem.scenarios.forEach(({ probability }, s) => (into[s] = probability));
    let { unresolved } = problem;
    this.checks.forEach(({ levels, unresolvedLevels }, c) => {
      const level = this.answerOf(answers, c) - 1;
      if (level < 0) return;
      for (let s = 0; s < into.length; s++) into[s] = (into[s] as number) * (levels[s]?.[level] ?? 0);
      unresolved *= unresolvedLevels[level] ?? 0;
    });
    return unresolved;
  }

  private persistsAfterSets(
    weights: Float64Array,
    unresolved: number,
    held: Float64Array,
    into: Float64Array,
  ): void {
    const { sets } = this;
    into.fill(unresolved);
    for (let s = 0; s < weights.length; s++) {
      const weight = weights[s] as number;
      if (weight === 0) continue;
      for (let set = 0; set < sets; set++)
        into[set] = (into[set] as number) + weight * (held[s * sets + set] as number);
    }
    for (let set = 0; set < sets; set++) if ((into[set] as number) < NOTHING_LEFT) into[set] = 0;
  }
}

/** As many rows as may be searched; one that has to wait for others only together with them. */
function rowsThatFit(rows: readonly RemedyRow[]): readonly RemedyRow[] {
  const taken = new Set<RemedyRow>();
  for (const row of rows) {
    const together = withThoseBefore(rows, new Set([...taken, row]));
    if (together.length > MOST_REMEDIES) continue;
    for (const one of together) taken.add(one);
  }
  return rows.filter((row) => taken.has(row));
}

/** Probability that each scenario still holds the complaint up after each set of remedies: [scenario * sets + set]. */
function heldAfterSets(
  problem: RepairProblem,
  tables: RepairTables,
  rows: readonly RemedyRow[],
): Float64Array {
  const sets = 2 ** rows.length;
  const count = problem.scenarios.length;
  const held = new Float64Array(count * sets);
  const state = new RepairState(tables, new Float64Array(count), 0);
  for (let set = 0; set < sets; set++) {
    state.reset();
    rows.forEach((row, k) => {
      if ((set >> k) & 1) state.apply(row);
    });
    for (let s = 0; s < count; s++) held[s * sets + set] = state.held[s] as number;
  }
  return held;
}
