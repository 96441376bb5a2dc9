import { describe, expect, it } from 'vitest';
import { repairProbability } from '../../src-core/inference/queries/repair-probability.ts';
import type { GraphModel } from '../../src-core/inference/network/graph-model.ts';
import { infer } from '../../src-core/inference/queries/infer.ts';
import { efficiencyOrder } from '../../src-core/planning/efficiency-order.ts';
import { valueOfCheck } from '../../src-core/planning/check-value.ts';
import { nextStep } from '../../src-core/planning/next-step.ts';
import { expectedCostOfRepair, planRemedies } from '../../src-core/planning/repair-plan.ts';
import type { RepairProblem } from '../../src-core/planning/repair-problem.ts';
import { repairTables } from '../../src-core/planning/repair-tables.ts';
import { referenceValue } from './reference-record.ts';

const NO_SERVICE = { minutes: Infinity };

/** Single faults by name, and what each action cures of them. */
function problemOf(
  faults: Record<string, number>,
  actions: Record<string, { cost: number; cures: Record<string, number> }>,
  extra: Partial<RepairProblem> = {},
): RepairProblem & { readonly ids: readonly string[] } {
  const names = Object.keys(faults);
  const ids = Object.keys(actions);
  return {
    scenarios: names.map((name, cause) => ({ causes: [cause], probability: faults[name] ?? 0 })),
    unresolved: 0,
    remedies: ids.map((id) => ({
      id,
      minutes: actions[id]?.cost ?? 0,
      removes: Object.entries(actions[id]?.cures ?? {}).map(([fault, probability]) => ({
        cause: names.indexOf(fault),
        probability,
      })),
    })),
    service: NO_SERVICE,
    ids,
    ...extra,
  };
}

const all = (names: readonly string[]) => Object.fromEntries(names.map((name) => [name, 1]));

function named(problem: { readonly ids: readonly string[] }, order: readonly number[]): string[] {
  return order.map((index) => problem.ids[index] ?? '?');
}

function greedy(problem: RepairProblem & { readonly ids: readonly string[] }) {
  const probabilities = Float64Array.from(problem.scenarios, (scenario) => scenario.probability);
  const found = efficiencyOrder(repairTables(problem), probabilities, problem.unresolved);
  return {
    order: named(
      problem,
      found.order.map((row) => row.index),
    ),
    minutes: found.expectedMinutes,
  };
}

function indices(problem: { readonly ids: readonly string[] }, order: readonly string[]): number[] {
  return order.map((id) => problem.ids.indexOf(id));
}

describe('the start problem, troubleshooting.yaml start-problem (Jensen & Nielsen 2007)', () => {
  const given = referenceValue<{
    faults: Record<string, number>;
    actions: Record<string, { cost: number; cures: Record<string, number> }>;
  }>('troubleshooting', 'start-problem');
  const solution = referenceValue<{
    order: string[];
    ecr: number;
    p_over_c_first_step: Record<string, number>;
  }>('troubleshooting', 'start-problem-solution');
  const problem = problemOf(given.faults, given.actions);

  it('is planned in the optimal order at the optimal cost', () => {
    const plan = planRemedies(problem);
    expect(named(problem, plan.order)).toEqual(solution.order);
    expect(plan.expectedMinutes).toBeCloseTo(solution.ecr, 10);
    expect(plan.isOptimal).toBe(true);
    expect(plan.serviceProbability).toBe(0);
  });

  it('costs 500 with the new computer first, the worst of its 49 orders', () => {
    expect(expectedCostOfRepair(problem, indices(problem, ['A4']))).toBeCloseTo(500, 10);
  });

  it('has the listed chances over cost as first steps', () => {
    const step = nextStep(problem, []);
    for (const { remedy, cureProbability, minutes } of step.remedies) {
      const id = problem.ids[remedy] ?? '';
      expect(cureProbability / minutes).toBeCloseTo(solution.p_over_c_first_step[id] ?? NaN, 10);
    }
  });
});

describe('five single faults, troubleshooting.yaml five-components', () => {
  const given = referenceValue<{
    p: number[];
    cost: number[];
    optimal_orders: number[][];
    ecr: number;
    worst_order: number[];
    worst_ecr: number;
  }>('troubleshooting', 'five-components');
  const problem = problemOf(
    Object.fromEntries(given.p.map((p, k) => [`f${k + 1}`, p])),
    Object.fromEntries(given.cost.map((cost, k) => [`${k + 1}`, { cost, cures: { [`f${k + 1}`]: 1 } }])),
  );

  it('are repaired in one of the two optimal orders', () => {
    const plan = planRemedies(problem);
    expect(given.optimal_orders).toContainEqual(named(problem, plan.order).map(Number));
    expect(plan.expectedMinutes).toBeCloseTo(given.ecr, 10);
  });

  it('are ordered optimally by chance over cost alone (Kadane & Simon 1977)', () => {
    expect(greedy(problem).minutes).toBeCloseTo(given.ecr, 10);
  });

  it('cost most in the worst order', () => {
    const worst = indices(problem, given.worst_order.map(String));
    expect(expectedCostOfRepair(problem, worst)).toBeCloseTo(given.worst_ecr, 10);
  });
});

interface OrderValue {
  readonly order: string[];
  readonly ecr: number;
}

describe('overlapping repairs, troubleshooting.yaml dependent-actions', () => {
  const given = referenceValue<{
    faults: Record<string, number>;
    cures: Record<string, string[]>;
    cost: number;
    optimum: OrderValue;
    static_p_over_c: OrderValue;
    updated_p_over_c: OrderValue;
    worst: OrderValue;
  }>('troubleshooting', 'dependent-actions');
  const problem = problemOf(
    given.faults,
    Object.fromEntries(
      Object.entries(given.cures).map(([id, names]) => [id, { cost: given.cost, cures: all(names) }]),
    ),
  );

  it('reach the optimum that chance over cost misses', () => {
    const plan = planRemedies(problem);
    expect(named(problem, plan.order)).toEqual(given.optimum.order);
    expect(plan.expectedMinutes).toBeCloseTo(given.optimum.ecr, 10);
    expect(greedy(problem).minutes).toBeCloseTo(given.updated_p_over_c.ecr, 10);
  });

  it.each([given.optimum, given.static_p_over_c, given.updated_p_over_c, given.worst])(
    'cost $ecr in the order $order',
    ({ order, ecr }) => expect(expectedCostOfRepair(problem, indices(problem, order))).toBeCloseTo(ecr, 10),
  );
});

describe('imperfect repairs with a service call, troubleshooting.yaml imperfect-and-service', () => {
  const given = referenceValue<{
    optimum: OrderValue;
    updated_p_over_c: OrderValue;
    static_p_over_c: OrderValue;
    worst: OrderValue;
  }>('troubleshooting', 'imperfect-and-service');
  // Faults, costs and cures as stated in the record's text.
  const problem = problemOf(
    { f1: 0.5, f2: 0.3, f3: 0.2 },
    {
      a1: { cost: 10, cures: { f1: 0.9, f2: 0.3 } },
      a2: { cost: 6, cures: { f2: 0.8 } },
      a3: { cost: 9, cures: { f1: 0.6, f3: 0.9 } },
    },
    { service: { minutes: 60 } },
  );

  it('reach the optimum that chance over cost misses', () => {
    const plan = planRemedies(problem);
    expect([...named(problem, plan.order), 'S']).toEqual(given.optimum.order);
    expect(plan.expectedMinutes).toBeCloseTo(given.optimum.ecr, 10);
    expect(greedy(problem).minutes).toBeCloseTo(given.updated_p_over_c.ecr, 10);
  });

  it.each([given.optimum, given.static_p_over_c, given.updated_p_over_c, given.worst])(
    'cost $ecr in the order $order',
    ({ order, ecr }) =>
      expect(expectedCostOfRepair(problem, indices(problem, order.slice(0, -1)))).toBeCloseTo(ecr, 10),
  );
});

describe('a cover opened once, troubleshooting.yaml opening-cost', () => {
  const given = referenceValue<Record<string, OrderValue>>('troubleshooting', 'opening-cost');
  const base = problemOf(
    { a: 0.25, b: 0.3, c: 0.25, d: 0.2 },
    {
      A: { cost: 6, cures: { a: 1 } },
      B: { cost: 4, cures: { b: 1 } },
      C: { cost: 2, cures: { c: 1 } },
      D: { cost: 2, cures: { d: 1 } },
    },
  );
  const problem = {
    ...base,
    remedies: base.remedies.map((remedy) =>
      remedy.id === 'B' || remedy.id === 'C' ? { ...remedy, preparations: ['cover'] } : remedy,
    ),
    preparations: new Map([['cover', 6]]),
  };

  it('is planned optimally, which no way of charging the cover to single repairs does', () => {
    const plan = planRemedies(problem);
    expect(named(problem, plan.order)).toEqual(given['optimum']?.order);
    expect(plan.expectedMinutes).toBeCloseTo(given['optimum']?.ecr ?? NaN, 10);
  });

  it.each(Object.entries(given))('costs what the record says: %s', (_, { order, ecr }) => {
    expect(expectedCostOfRepair(problem, indices(problem, order))).toBeCloseTo(ecr, 10);
  });

  it('costs nothing when it is open already', () => {
    const open = { ...problem, prepared: new Set(['cover']) };
    expect(planRemedies(open).expectedMinutes).toBeCloseTo(planRemedies(base).expectedMinutes, 10);
  });
});

describe('a question before acting, troubleshooting.yaml question-before-action', () => {
  const given = referenceValue<{
    no_check: OrderValue;
    p_yes: number;
    after_yes: OrderValue;
    after_no: OrderValue;
    ecr_with_check_free: number;
    value_of_check: number;
    perfect_information: { ecr: number; value: number };
  }>('troubleshooting', 'question-before-action');
  const problem = problemOf(
    { f1: 0.45, f2: 0.35, f3: 0.2 },
    {
      r1: { cost: 30, cures: { f1: 1 } },
      r2: { cost: 40, cures: { f2: 1 } },
      r3: { cost: 15, cures: { f3: 1 } },
    },
  );
  const check = (minutes: number) => ({
    id: 'question',
    minutes,
    levels: [0.9, 0.2, 0.5].map((yes) => [1 - yes, yes]),
    unresolvedLevels: [0.5, 0.5],
  });

  it('is worth what the record says', () => {
    const value = valueOfCheck(problem, check(0));
    expect(value.value).toBeCloseTo(given.value_of_check, 10);
    expect(value.expectedMinutes).toBeCloseTo(given.ecr_with_check_free, 10);
    const [no, yes] = value.answers;
    expect(yes?.probability).toBeCloseTo(given.p_yes, 12);
    expect(yes?.expectedMinutes).toBeCloseTo(given.after_yes.ecr, 10);
    expect(named(problem, yes?.order ?? [])).toEqual(given.after_yes.order);
    expect(no?.expectedMinutes).toBeCloseTo(given.after_no.ecr, 10);
    expect(named(problem, no?.order ?? [])).toEqual(given.after_no.order);
    expect(planRemedies(problem).expectedMinutes).toBeCloseTo(given.no_check.ecr, 10);
  });

  it('is asked while it costs less than its value, and not when it costs more', () => {
    expect(nextStep(problem, [check(9)]).best.kind).toBe('check');
    const dear = nextStep(problem, [check(9.2)]);
    expect(dear.best).toEqual({ kind: 'remedy', remedy: 0, expectedMinutes: dear.actNow.expectedMinutes });
  });

  it('is worth the perfect-information value when it names the fault', () => {
    const perfect = {
      id: 'oracle',
      minutes: 0,
      levels: [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ],
      unresolvedLevels: [1, 1, 1],
    };
    const value = valueOfCheck(problem, perfect);
    expect(value.expectedMinutes).toBeCloseTo(given.perfect_information.ecr, 10);
    expect(value.value).toBeCloseTo(given.perfect_information.value, 10);
  });
});

describe('value of information, inference.yaml value-of-information and check-information', () => {
  const given = referenceValue<Record<string, number>>('inference', 'value-of-information');
  const information = referenceValue<Record<string, number>>('inference', 'check-information');
  // Leaving a present cause costs 100: the service call. Without the cause nothing is to be ended: the scenario is
  // left out, so its probability is missing from the costs as it should be.
  const cost = (present: number) => {
    const problem: RepairProblem = {
      scenarios: [{ causes: [0], probability: 1 }],
      unresolved: 0,
      remedies: [{ id: 'repair', minutes: 30, removes: [{ cause: 0, probability: 1 }] }],
      service: { minutes: 100 * present },
    };
    return planRemedies(problem).expectedMinutes;
  };

  it('is min(30, 100 p) at each node', () => {
    const positive = information['p_positive'] ?? NaN;
    expect(cost(0.2)).toBeCloseTo(given['no_check'] ?? NaN, 10);
    const withCheck =
      positive * cost(information['post_positive'] ?? NaN) +
      (1 - positive) * cost(information['post_negative'] ?? NaN);
    expect(withCheck).toBeCloseTo(given['with_check'] ?? NaN, 10);
    expect(cost(0.2) - withCheck).toBeCloseTo(given['value_of_check'] ?? NaN, 10);
    expect(0.2 * cost(1)).toBeCloseTo(given['perfect_information'] ?? NaN, 10);
  });
});

describe('clearing a complaint is not the posterior, troubleshooting.yaml clearing-is-not-posterior', () => {
  const given = referenceValue<{
    p_complaint: number;
    posterior: { x: number; y: number };
    p_cleared_if_removed: { x: number; y: number; x_and_y: number };
  }>('troubleshooting', 'clearing-is-not-posterior');
  const model: GraphModel = {
    causes: [
      { id: 'x', prior: 0.3 },
      { id: 'y', prior: 0.2 },
    ],
    mechanisms: [],
    observations: [
      {
        id: 'complaint',
        leak: [0.95, 0.05],
        links: [
          { from: { kind: 'cause', index: 0 }, levels: [0.1, 0.9] },
          { from: { kind: 'cause', index: 1 }, levels: [0.4, 0.6] },
        ],
      },
    ],
  };
  const evidence = [{ observation: 0, kind: 'level', level: 1 }] as const;

  it('gives the posteriors', () => {
    const posterior = infer(model, [0.3, 0.2], evidence);
    if (posterior.kind !== 'ok' || !posterior.exact) throw new Error('expected an exact answer');
    expect(Math.exp(posterior.logEvidence)).toBeCloseTo(given.p_complaint, 12);
    expect(posterior.causes[0]).toBeCloseTo(given.posterior.x, 12);
    expect(posterior.causes[1]).toBeCloseTo(given.posterior.y, 12);
  });

  it.each([
    ['x', [0], given.p_cleared_if_removed.x],
    ['y', [1], given.p_cleared_if_removed.y],
    ['x and y', [0, 1], given.p_cleared_if_removed.x_and_y],
  ] as const)('gives the chance that removing %s clears it', (_, causes, expected) => {
    const removal = causes.map((cause) => ({ cause, probability: 1 }));
    const found = repairProbability(model, [0.3, 0.2], evidence, [0], removal);
    expect(found).toEqual({ kind: 'ok', exact: true, probability: expect.closeTo(expected, 12) as number });
  });
});
