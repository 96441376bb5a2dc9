import { nextStep, type NextStepOptions } from '../../src-core/planning/next-step.ts';
import type { Check } from '../../src-core/planning/check-value.ts';
import type { RepairProblem } from '../../src-core/planning/repair-problem.ts';
import { generator } from '../inference/random-model.ts';

/** A small repair problem with checks whose answers are independent within a scenario. */
export interface SmallCase {
  readonly problem: RepairProblem;
  readonly checks: readonly Check[];
}

/** Single-cause scenarios, 3 or 4 imperfect remedies, 3 checks with 2 or 3 answers. */
export function randomSmallCase(seed: number): SmallCase {
  const random = generator(seed);
  const below = (count: number) => Math.floor(random() * count);
  const causeCount = 3 + below(3);
  const weights = Array.from(
    { length: causeCount + 1 },
    (_, k) => (k === causeCount ? 0.1 : 1) * (0.1 + random()),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const remedyCount = 3 + below(2);
  const spread = (count: number) => {
    const raw = Array.from({ length: count }, () => random() ** 3 + 0.01);
    const sum = raw.reduce((a, b) => a + b, 0);
    return raw.map((p) => p / sum);
  };
  return {
    problem: {
      scenarios: weights
        .slice(0, causeCount)
        .map((weight, cause) => ({ causes: [cause], probability: weight / total })),
      unresolved: (weights[causeCount] ?? 0) / total,
      remedies: Array.from({ length: remedyCount }, (_, k) => ({
        id: `r${k}`,
        minutes: 2 + below(60),
        removes: Array.from({ length: causeCount }, (__, cause) => ({
          cause,
          probability: 0.5 + 0.5 * random(),
        })).filter(({ cause }) => cause === k % causeCount || random() < 0.2),
      })),
      service: { minutes: 60 + below(240) },
    },
    checks: Array.from({ length: 3 }, (_, k) => {
      const count = 2 + below(2);
      return {
        id: `c${k}`,
        minutes: 1 + below(8),
        levels: Array.from({ length: causeCount }, () => spread(count)),
        unresolvedLevels: spread(count),
      };
    }),
  };
}

/** Where a case stands: weights of the scenarios (jointly with all that was seen), what is still open. */
interface Standing {
  readonly weights: readonly number[];
  readonly unresolved: number;
  readonly remedies: number;
  readonly checks: number;
}

function startOf({ problem, checks }: SmallCase): Standing {
  return {
    weights: problem.scenarios.map(({ probability }) => probability),
    unresolved: problem.unresolved,
    remedies: 2 ** problem.remedies.length - 1,
    checks: 2 ** checks.length - 1,
  };
}

const massOf = ({ weights, unresolved }: Standing) =>
  weights.reduce((sum, weight) => sum + weight, unresolved);

function afterRemedy({ problem }: SmallCase, standing: Standing, remedy: number): Standing {
  const removes = problem.remedies[remedy]?.removes ?? [];
  const weights = standing.weights.map((weight, s) => {
    const removal = removes.find(({ cause }) => cause === problem.scenarios[s]?.causes[0]);
    return weight * (1 - (removal?.probability ?? 0));
  });
  return { ...standing, weights, remedies: standing.remedies & ~(1 << remedy) };
}

function afterAnswer({ checks }: SmallCase, standing: Standing, check: number, level: number): Standing {
  const { levels, unresolvedLevels } = checks[check] as Check;
  return {
    ...standing,
    weights: standing.weights.map((weight, s) => weight * (levels[s]?.[level] ?? 0)),
    unresolved: standing.unresolved * (unresolvedLevels[level] ?? 0),
    checks: standing.checks & ~(1 << check),
  };
}

/** Expected minutes (times the mass of the standing) of the best of all policies, by dynamic programming. */
export function cheapestPolicy(small: SmallCase, standing = startOf(small)): number {
  const mass = massOf(standing);
  const { problem, checks } = small;
  let least = mass * problem.service.minutes;
  problem.remedies.forEach(({ minutes }, remedy) => {
    if (!((standing.remedies >> remedy) & 1) || mass * minutes >= least) return;
    least = Math.min(least, mass * minutes + cheapestPolicy(small, afterRemedy(small, standing, remedy)));
  });
  checks.forEach(({ minutes, unresolvedLevels }, check) => {
    if (!((standing.checks >> check) & 1)) return;
    let cost = mass * minutes;
    for (let level = 0; level < unresolvedLevels.length && cost < least; level++)
      cost += cheapestPolicy(small, afterAnswer(small, standing, check, level));
    least = Math.min(least, cost);
  });
  return least;
}

/** Expected minutes of the best policy that begins with this check, or that begins with a remedy or hands over at once. */
export function cheapestBeginning(small: SmallCase, first: { readonly check: number } | 'acting'): number {
  const start = startOf(small);
  const { problem, checks } = small;
  if (first !== 'acting') {
    const check = checks[first.check];
    if (!check) throw new Error(`there is no check ${first.check}`);
    return Array.from(check.unresolvedLevels).reduce(
      (cost, _, level) => cost + cheapestPolicy(small, afterAnswer(small, start, first.check, level)),
      massOf(start) * check.minutes,
    );
  }
  return Math.min(
    massOf(start) * problem.service.minutes,
    ...problem.remedies.map(
      ({ minutes }, remedy) =>
        massOf(start) * minutes + cheapestPolicy(small, afterRemedy(small, start, remedy)),
    ),
  );
}

/** Expected minutes of doing again and again what `nextStep` says. */
export function plannersPolicy(
  small: SmallCase,
  options: NextStepOptions,
  standing = startOf(small),
): number {
  const mass = massOf(standing);
  if (mass < 1e-12) return 0;
  const { problem, checks } = small;
  const open = checks.flatMap((check, index) => ((standing.checks >> index) & 1 ? [{ check, index }] : []));
  const remedies = problem.remedies.flatMap((remedy, index) =>
    (standing.remedies >> index) & 1 ? [{ remedy, index }] : [],
  );
  const { best } = nextStep(
    {
      ...problem,
      scenarios: problem.scenarios.map((one, s) => ({
        ...one,
        probability: (standing.weights[s] ?? 0) / mass,
      })),
      unresolved: standing.unresolved / mass,
      remedies: remedies.map(({ remedy }) => remedy),
    },
    open.map(({ check }) => check),
    options,
  );
  if (best.kind === 'service') return mass * problem.service.minutes;
  if (best.kind === 'remedy') {
    const { remedy, index } = remedies[best.remedy] ?? remedies[0] ?? { remedy: null, index: -1 };
    if (!remedy) throw new Error('the planner named a remedy that is not open');
    return mass * remedy.minutes + plannersPolicy(small, options, afterRemedy(small, standing, index));
  }
  const { check, index } = open[best.check] ?? { check: null, index: -1 };
  if (!check) throw new Error('the planner named a check that is not open');
  let cost = mass * check.minutes;
  for (let level = 0; level < check.unresolvedLevels.length; level++)
    cost += plannersPolicy(small, options, afterAnswer(small, standing, index, level));
  return cost;
}
