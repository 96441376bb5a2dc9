import type { RepairProblem } from '../../src-core/planning/repair-problem.ts';
import { generator } from '../inference/random-model.ts';

/** A random repair problem with overlapping, imperfect remedies, sets of causes, and shared preparations. */
export function randomProblem(seed: number, remedyCount: number): RepairProblem {
  const random = generator(seed);
  const below = (count: number) => Math.floor(random() * count);
  const causeCount = 3 + below(4);
  const scenarios = Array.from({ length: causeCount }, (_, cause) => ({
    causes: random() < 0.25 ? [cause, (cause + 1) % causeCount] : [cause],
    weight: 0.1 + random(),
  }));
  const unresolvedWeight = random() < 0.5 ? 0 : random();
  const total = scenarios.reduce((sum, { weight }) => sum + weight, unresolvedWeight);
  return {
    scenarios: scenarios.map(({ causes, weight }) => ({ causes, probability: weight / total })),
    unresolved: unresolvedWeight / total,
    remedies: Array.from({ length: remedyCount }, (_, k) => ({
      id: `r${k}`,
      minutes: 1 + below(40),
      removes: Array.from({ length: causeCount }, (__, cause) => ({
        cause,
        probability: random() < 0.4 ? 1 : random(),
      })).filter((_, cause) => cause === k % causeCount || random() < 0.25),
      preparations: random() < 0.3 ? ['cover'] : [],
    })),
    service: { minutes: 30 + below(300) },
    preparations: new Map([['cover', 5 + below(20)]]),
  };
}

/** The same with remedies that have to come after others; never in a ring. */
export function withOrdering(problem: RepairProblem, seed: number): RepairProblem {
  const random = generator(seed + 7);
  return {
    ...problem,
    remedies: problem.remedies.map((remedy, k) => ({
      ...remedy,
      after: problem.remedies.slice(0, k).flatMap(({ id }) => (random() < 0.3 ? [id] : [])),
    })),
  };
}

/** Whether every remedy of an order comes after those that it has to. */
export function isAllowed(problem: RepairProblem, order: readonly number[]): boolean {
  const idOf = (index: number | undefined) => problem.remedies[index ?? -1]?.id ?? '';
  return order.every((index, k) => {
    const done = new Set(order.slice(0, k).map(idOf));
    return (problem.remedies[index]?.after ?? []).every((id) => done.has(id));
  });
}

/** Expected cost of an order straight from the definition, one scenario at a time. */
export function costByDefinition(problem: RepairProblem, order: readonly number[]): number {
  const holds = [...problem.scenarios, { causes: null, probability: problem.unresolved }];
  return holds.reduce((sum, { causes, probability }) => {
    let minutes = 0;
    let persists = 1;
    let isOpen = false;
    const left = new Map<number, number>();
    for (const index of order) {
      const remedy = problem.remedies[index];
      if (!remedy) throw new Error(`no remedy ${index}`);
      const cover = remedy.preparations?.length && !isOpen ? (problem.preparations?.get('cover') ?? 0) : 0;
      if (remedy.preparations?.length) isOpen = true;
      minutes += persists * (remedy.minutes + cover);
      for (const { cause, probability: p } of remedy.removes)
        left.set(cause, (left.get(cause) ?? 1) * (1 - p));
      if (causes) persists = 1 - causes.reduce((gone, cause) => gone * (1 - (left.get(cause) ?? 1)), 1);
    }
    return sum + probability * (minutes + persists * problem.service.minutes);
  }, 0);
}

/** Cheapest cost over every ordered subset of remedies. */
export function cheapestByExhaustion(problem: RepairProblem): number {
  let best = Infinity;
  const extend = (order: readonly number[]): void => {
    best = Math.min(best, costByDefinition(problem, order));
    problem.remedies.forEach((_, index) => {
      const longer = [...order, index];
      if (!order.includes(index) && isAllowed(problem, longer)) extend(longer);
    });
  };
  extend([]);
  return best;
}
