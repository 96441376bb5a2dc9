import { cheapestOrder } from './cheapest-order.ts';
import type { RepairProblem } from './repair-problem.ts';
import { repairTables, type RepairTables } from './repair-tables.ts';

/** A check that is open: not yet made, its part not destroyed, not answered "can't tell". */
export interface Check {
  readonly id: string;
  readonly minutes: number;
  readonly preparations?: readonly string[];
  /** levels[scenario][level]: probability of each answer in each scenario. */
  readonly levels: readonly ArrayLike<number>[];
  /** The same when no scenario holds. */
  readonly unresolvedLevels: ArrayLike<number>;
}

export interface CheckAnswer {
  readonly level: number;
  readonly probability: number;
  /** Probability of each scenario after this answer, and of none. */
  readonly scenarios: Float64Array;
  readonly unresolved: number;
  /** Expected minutes of the best remedy plan after this answer; its first remedies. */
  readonly expectedMinutes: number;
  readonly order: readonly number[];
}

export interface CheckValue {
  /** Minutes that the check takes now, preparations included. */
  readonly minutes: number;
  /** Expected minutes from now to the end when the check is made first. */
  readonly expectedMinutes: number;
  /** Expected minutes saved by the answers, the check itself not counted. */
  readonly value: number;
  /** Mutual information of answer and scenario, in bits: what the check tells, whatever that is worth. */
  readonly informationBits: number;
  readonly answers: readonly CheckAnswer[];
}

/**
 * One-step value of a check: what the best remedy plan costs now against its expected cost after each answer
 * (Heckerman, Breese & Rommelse, Comm. ACM 38(3) (1995); Breese & Heckerman, UAI-12 (1996)). The check pays
 * when `value` is above `minutes`.
 */
export function valueOfCheck(problem: RepairProblem, check: Check): CheckValue {
  const now = tablesNow(problem);
  return valueAgainst(
    problem,
    check,
    now,
    cheapestOrder(now.tables, now.probabilities, problem.unresolved).expectedMinutes,
  );
}

/** `valueOfCheck` with the tables and the cost of acting now at hand. */
export function valueAgainst(
  problem: RepairProblem,
  check: Check,
  now: TablesNow,
  actNow: number,
): CheckValue {
  const tables = sharesPreparation(problem, check)
    ? repairTables(afterPreparing(problem, check))
    : now.tables;
  const answers: CheckAnswer[] = [];
  for (let level = 0; level < check.unresolvedLevels.length; level++) {
    const scenarios = new Float64Array(tables.scenarioCount);
    const unresolved = problem.unresolved * (check.unresolvedLevels[level] ?? 0);
    let probability = unresolved;
    for (let s = 0; s < scenarios.length; s++) {
      const joint = (now.probabilities[s] ?? 0) * (check.levels[s]?.[level] ?? 0);
      scenarios[s] = joint;
      probability += joint;
    }
    if (!(probability > 0)) continue;
    const plan = cheapestOrder(tables, scenarios, unresolved);
    answers.push({
      level,
      probability,
      scenarios: scenarios.map((p) => p / probability),
      unresolved: unresolved / probability,
      expectedMinutes: plan.expectedMinutes / probability,
      order: plan.order.map((row) => row.index),
    });
  }
  const after = answers.reduce((sum, answer) => sum + answer.probability * answer.expectedMinutes, 0);
  const minutes = minutesOfCheck(problem, check);
  return {
    minutes,
    expectedMinutes: minutes + after,
    value: actNow - after,
    informationBits: informationOf(problem, answers),
    answers,
  };
}

/** Expected divergence of the scenarios after the answer from those before (Cover & Thomas 2006, eq. 2.28). */
function informationOf(problem: RepairProblem, answers: readonly CheckAnswer[]): number {
  const term = (after: number, before: number) => (after > 0 ? after * Math.log2(after / before) : 0);
  return answers.reduce((sum, answer) => {
    let divergence = term(answer.unresolved, problem.unresolved);
    problem.scenarios.forEach(
      ({ probability }, s) => (divergence += term(answer.scenarios[s] ?? 0, probability)),
    );
    return sum + answer.probability * divergence;
  }, 0);
}

/** Minutes of a check now: its own and those of preparations not yet made. */
export function minutesOfCheck(
  problem: RepairProblem,
  check: Pick<Check, 'minutes' | 'preparations'>,
): number {
  return (check.preparations ?? []).reduce(
    (sum, name) => sum + (problem.prepared?.has(name) ? 0 : (problem.preparations?.get(name) ?? 0)),
    check.minutes,
  );
}

export interface TablesNow {
  readonly tables: RepairTables;
  readonly probabilities: Float64Array;
}

export function tablesNow(problem: RepairProblem): TablesNow {
  return {
    tables: repairTables(problem),
    probabilities: Float64Array.from(problem.scenarios, (scenario) => scenario.probability),
  };
}

/** Whether a preparation made for the check is one that some remedy needs too. */
function sharesPreparation(problem: RepairProblem, check: Check): boolean {
  const { preparations = [] } = check;
  return (
    preparations.length > 0 &&
    problem.remedies.some((remedy) => remedy.preparations?.some((name) => preparations.includes(name)))
  );
}

function afterPreparing(problem: RepairProblem, check: Check): RepairProblem {
  return { ...problem, prepared: new Set([...(problem.prepared ?? []), ...(check.preparations ?? [])]) };
}
