import type { CaseScenarios } from '../../src-core/planning/case-scenarios.ts';
import { nextStepAmong } from '../../src-core/planning/next-step.ts';
import { offersOf } from '../../src-core/planning/plan-case.ts';
import { DEFAULT_SERVICE } from '../../src-core/planning/repair-problem.ts';
import type { CaseProblem } from '../../src-core/session/case-problem.ts';

/** The value of every open check, given the scenarios: the part of planning that looks at checks and remedies. */
export function sweepOf(problem: CaseProblem, found: Extract<CaseScenarios, { kind: 'ok' }>) {
  const { model, checks, remedies, preparations, prepared } = problem;
  const { scenarios, unresolved } = found;
  return nextStepAmong(
    {
      scenarios,
      unresolved,
      remedies,
      service: DEFAULT_SERVICE,
      preparations,
      prepared,
    },
    offersOf(model, checks, found),
  );
}
