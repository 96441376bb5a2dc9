import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Check } from '../../src-core/planning/check-value.ts';
import { PolicySearch } from '../../src-core/planning/policy-search.ts';
import type { RepairProblem } from '../../src-core/planning/repair-problem.ts';
import { repairTables } from '../../src-core/planning/repair-tables.ts';
import { generator } from '../inference/random-model.ts';
import { randomProblem, withOrdering } from './random-problem.ts';

const seeds = fc.integer({ min: 1, max: 2 ** 31 - 2 });

/** Checks with 2 or 3 answers, some of which need the cover off as some remedies do. */
function randomChecks(problem: RepairProblem, seed: number): Check[] {
  const random = generator(seed + 11);
  const spread = (count: number) => {
    const raw = Array.from({ length: count }, () => random() ** 2 + 0.01);
    const sum = raw.reduce((a, b) => a + b, 0);
    return raw.map((p) => p / sum);
  };
  return Array.from({ length: 2 }, (_, k) => {
    const count = 2 + (k % 2);
    return {
      id: `c${k}`,
      minutes: 1 + Math.floor(random() * 10),
      preparations: random() < 0.5 ? ['cover'] : [],
      levels: problem.scenarios.map(() => spread(count)),
      unresolvedLevels: spread(count),
    };
  });
}

interface Standing {
  readonly weights: readonly number[];
  readonly unresolved: number;
  readonly done: readonly number[];
  readonly asked: readonly number[];
  readonly isOpen: boolean;
}

/** The best of all policies straight from the definition: every sequence of remedies, checks and answers. */
class ByDefinition {
  readonly problem: RepairProblem;
  readonly checks: readonly Check[];

  constructor(problem: RepairProblem, checks: readonly Check[]) {
    this.problem = problem;
    this.checks = checks;
  }

  /** Chance that the complaint is there, together with the answers so far. */
  mass({ weights, unresolved, done }: Standing): number {
    return this.problem.scenarios.reduce((sum, { causes }, s) => {
      const gone = causes.reduce((product, cause) => product * (1 - this.left(cause, done)), 1);
      return sum + (weights[s] ?? 0) * (1 - gone);
    }, unresolved);
  }

  private left(cause: number, done: readonly number[]): number {
    return done.reduce((product, remedy) => {
      const removal = this.problem.remedies[remedy]?.removes.find((one) => one.cause === cause);
      return product * (1 - (removal?.probability ?? 0));
    }, 1);
  }

  private cover(preparations: readonly string[] | undefined, isOpen: boolean): number {
    return preparations?.length && !isOpen ? (this.problem.preparations?.get('cover') ?? 0) : 0;
  }

  remedyFirst(remedy: number, standing: Standing): number {
    const { minutes = 0, preparations } = this.problem.remedies[remedy] ?? {};
    const cost = this.mass(standing) * (minutes + this.cover(preparations, standing.isOpen));
    const isOpen = standing.isOpen || Boolean(preparations?.length);
    return cost + this.best({ ...standing, isOpen, done: [...standing.done, remedy] });
  }

  checkFirst(check: number, standing: Standing): number {
    const one = this.checks[check];
    if (!one) throw new Error(`no check ${check}`);
    let cost = this.mass(standing) * (one.minutes + this.cover(one.preparations, standing.isOpen));
    for (let level = 0; level < one.unresolvedLevels.length; level++) {
      cost += this.best({
        weights: standing.weights.map((weight, s) => weight * (one.levels[s]?.[level] ?? 0)),
        unresolved: standing.unresolved * (one.unresolvedLevels[level] ?? 0),
        done: standing.done,
        asked: [...standing.asked, check],
        isOpen: standing.isOpen || Boolean(one.preparations?.length),
      });
    }
    return cost;
  }

  isAllowed(remedy: number, done: readonly number[]): boolean {
    const ids = new Set(done.map((index) => this.problem.remedies[index]?.id));
    return (this.problem.remedies[remedy]?.after ?? []).every((id) => ids.has(id));
  }

  best(standing: Standing): number {
    let least = this.mass(standing) * this.problem.service.minutes;
    this.problem.remedies.forEach((_, remedy) => {
      if (standing.done.includes(remedy) || !this.isAllowed(remedy, standing.done)) return;
      least = Math.min(least, this.remedyFirst(remedy, standing));
    });
    this.checks.forEach((_, check) => {
      if (!standing.asked.includes(check)) least = Math.min(least, this.checkFirst(check, standing));
    });
    return least;
  }
}

describe('the search over all policies', () => {
  it('is the best there is, with sets of causes, shared preparations and an order that is asked for', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const problem = withOrdering(randomProblem(seed, 3), seed);
        const checks = randomChecks(problem, seed);
        const tables = repairTables(problem);
        const search = new PolicySearch(problem, tables, tables.remedies, checks, 4096);
        const definition = new ByDefinition(problem, checks);
        const start: Standing = {
          weights: problem.scenarios.map(({ probability }) => probability),
          unresolved: problem.unresolved,
          done: [],
          asked: [],
          isOpen: false,
        };
        checks.forEach((check, index) =>
          expect(search.costOfCheck(check)).toBeCloseTo(definition.checkFirst(index, start), 8),
        );
        for (const row of tables.remedies) {
          const expected = definition.isAllowed(row.index, [])
            ? definition.remedyFirst(row.index, start)
            : Infinity;
          if (expected === Infinity) expect(search.costOfRemedy(row)).toBe(Infinity);
          else expect(search.costOfRemedy(row)).toBeCloseTo(expected, 8);
        }
      }),
      { numRuns: 60, seed: 68 },
    );
  });

  it('leaves out what does not fit, and never looks cheaper for it', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const problem = randomProblem(seed, 9);
        const checks = randomChecks(problem, seed);
        const tables = repairTables(problem);
        const whole = new PolicySearch(problem, tables, tables.remedies, checks, 2 ** 20);
        const part = new PolicySearch(problem, tables, tables.remedies.slice(0, 4), checks.slice(0, 1), 64);
        const [first] = tables.remedies;
        if (!first) return;
        expect(part.costOfRemedy(first)).toBeGreaterThanOrEqual(whole.costOfRemedy(first) - 1e-9);
        for (const row of tables.remedies.slice(4)) expect(part.costOfRemedy(row)).toBe(Infinity);
      }),
      { numRuns: 60, seed: 69 },
    );
  });
});
