import { efficiencyOrder } from './efficiency-order.ts';
import { minutesOfCheck, type Check, type CheckAnswer } from './check-value.ts';
import type { RepairProblem } from './repair-problem.ts';
import { RepairState, type RemedyRow, type RepairTables } from './repair-tables.ts';

/** A check that had a full look one step ahead. */
export interface LookedAt {
  readonly check: Check;
  readonly minutes: number;
  readonly answers: readonly CheckAnswer[];
}

/**
 * Two-step look-ahead: what a check or a remedy costs when one more check may follow it before the remedies. Answers
 * of different checks are taken as independent within a scenario. What follows the second step is the plain
 * chance-over-cost order, so each figure is the cost of something that can be done: never below the best.
 */
export class TwoStepLookAhead {
  private readonly problem: RepairProblem;
  private readonly tables: RepairTables;
  private readonly weights: Float64Array;
  private readonly state: RepairState;

  /** `tables` may hold the leading remedies only. */
  constructor(problem: RepairProblem, tables: RepairTables) {
    this.problem = problem;
    this.tables = tables;
    this.weights = new Float64Array(tables.scenarioCount);
    this.state = new RepairState(tables, this.weights, 0);
  }

  /** Expected minutes with this check first; never above its one-step figure. */
  costOfCheck(first: LookedAt, others: readonly LookedAt[]): number {
    const prepared = this.preparedBy(first.check.preparations);
    return first.answers.reduce(
      (sum, { probability, scenarios, unresolved, expectedMinutes }) =>
        sum +
        probability * this.leastThrough(others, prepared, scenarios, unresolved, 1, null, expectedMinutes),
      first.minutes,
    );
  }

  /**
   * Expected minutes with this remedy first; never above `standing`, its cost with remedies only. Requires: the row is
   * one of the tables.
   */
  costOfRemedy(first: RemedyRow, others: readonly LookedAt[], standing: number): number {
    const { problem, state } = this;
    const probabilities = Float64Array.from(problem.scenarios, ({ probability }) => probability);
    state.restart(probabilities, problem.unresolved);
    const minutes = state.minutes(first);
    state.apply(first);
    const names = problem.remedies[first.index]?.preparations;
    const after = this.leastThrough(
      others,
      this.preparedBy(names),
      probabilities,
      problem.unresolved,
      state.persists,
      first,
      standing - minutes,
    );
    return minutes + after;
  }

  /** The least of `least` and what one of the checks and then the remedies cost; `done` has been tried in vain. */
  private leastThrough(
    checks: readonly LookedAt[],
    prepared: ReadonlySet<string>,
    probabilities: ArrayLike<number>,
    unresolved: number,
    persists: number,
    done: RemedyRow | null,
    least: number,
  ): number {
    const { weights, state } = this;
    const tables = done
      ? { ...this.tables, remedies: this.tables.remedies.filter((row) => row !== done) }
      : this.tables;
    const score = tables.hasJointScenarios ? 'progress' : 'gain';
    for (const { check } of checks) {
      let minutes = persists * minutesOfCheck({ ...this.problem, prepared }, check);
      for (let level = 0; level < check.unresolvedLevels.length && minutes < least; level++) {
        for (let s = 0; s < weights.length; s++) {
          weights[s] = (probabilities[s] as number) * (check.levels[s]?.[level] ?? 0);
        }
        const rest = unresolved * (check.unresolvedLevels[level] ?? 0);
        state.restart(weights, rest);
        if (done) state.apply(done);
        minutes += efficiencyOrder(tables, weights, rest, score, state).expectedMinutes;
      }
      least = Math.min(least, minutes);
    }
    return least;
  }

  private preparedBy(names: readonly string[] = []): ReadonlySet<string> {
    return new Set([...(this.problem.prepared ?? []), ...names]);
  }
}
