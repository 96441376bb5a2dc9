/** What to check or do next: order of remedies, value of a check, the next step of a case. */
export { caseScenarios, type CaseScenarios } from './case-scenarios.ts';
export { valueOfCheck, type Check, type CheckAnswer, type CheckValue } from './check-value.ts';
export {
  nextStep,
  type NextStep,
  type NextStepOptions,
  type RankedCheck,
  type RankedRemedy,
} from './next-step.ts';
export {
  goesWithAnything,
  planCase,
  type CasePlan,
  type OpenCheck,
  type PlanCaseInput,
} from './plan-case.ts';
export { expectedCostOfRepair, planRemedies, type RepairPlan } from './repair-plan.ts';
export {
  DEFAULT_SERVICE,
  type Remedy,
  type RepairProblem,
  type Scenario,
  type ServiceCall,
} from './repair-problem.ts';
export { QUICK_CHECKS, type QuickCheckRule } from './quick-checks.ts';
