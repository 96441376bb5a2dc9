import type { CalibratedNetwork, InferenceOptions } from '../inference/queries/calibrated-network.ts';
import type { GraphEvidence, GraphModel, GraphObservation } from '../inference/network/graph-model.ts';
import { milderWorthTrying } from './milder-first.ts';
import { caseScenarios, type CaseScenarios } from './case-scenarios.ts';
import type { CheckOffer } from './check-sweep.ts';
import type { Check } from './check-value.ts';
import { nextStepAmong, type NextStep } from './next-step.ts';
import type { QuickCheckRule } from './quick-checks.ts';
import {
  DEFAULT_SERVICE,
  type Remedy,
  type RepairProblem,
  type Scenario,
  type ServiceCall,
} from './repair-problem.ts';
import { ScenarioForecast } from './scenario-forecast.ts';

/** A check of one observation that is still open. */
export interface OpenCheck {
  readonly id: string;
  readonly observation: number;
  readonly minutes: number;
  readonly preparations?: readonly string[];
}

export interface PlanCaseInput {
  readonly model: GraphModel;
  readonly priors: readonly number[];
  readonly evidence: readonly GraphEvidence[];
  readonly complaint: readonly number[];
  readonly remedies: readonly Remedy[];
  readonly checks: readonly OpenCheck[];
  readonly service?: ServiceCall;
  readonly preparations?: ReadonlyMap<string, number>;
  readonly prepared?: ReadonlySet<string>;
  readonly inference?: InferenceOptions;
  /** Quick checks come before a remedy that will probably fail. */
  readonly quickChecks?: QuickCheckRule;
  /** The network of exactly this case (`propagate`, with history and complaint), if it is at hand already. */
  readonly network?: CalibratedNetwork;
}

/**
 * What saves less than this is not worth the interruption: the weights behind it are no better. Our own, chosen with the next
 * steps in view that leads accept in the reference cases.
 */
const LEAST_SAVING_MINUTES = 2;

export type CasePlan =
  | {
      readonly kind: 'ok';
      /** False when the network was too wide and the plan rests on part of the findings, see `planCase`. */
      readonly exact: boolean;
      readonly next: NextStep;
      readonly scenarios: readonly Scenario[];
      /** Probability that none of the scenarios holds. */
      readonly unresolved: number;
      /** Exact probability that a remedy (by index), done now, ends the complaint; worked out when asked for. */
      cureProbability(remedy: number): number;
      /** Probability that an earlier remedy has ended the complaint already; the rest of the plan assumes not. */
      readonly alreadyGone: number;
    }
  | { readonly kind: 'impossible-evidence' | 'too-wide' | 'complaint-gone' };

/**
 * Next step of one case: scenarios from the twin network, then `nextStep` over them. Checks are first sorted on
 * rough forecasts; the ones that deserve a full look get exact ones.
 *
 * Where the network is too wide, findings are set aside until it is not, those with most parents first: present ones
 * of the complaint stay, absent ones cost nothing and stay. Such a plan is marked `exact: false`.
 *
 * Requires: every check's observation is without evidence. Wrong use throws.
 */
export function planCase(input: PlanCaseInput): CasePlan {
  const { model, evidence, remedies } = input;
  const known = new Set(evidence.map((finding) => finding.observation));
  for (const check of input.checks) {
    if (!model.observations[check.observation]) {
      throw new RangeError(
        `check "${check.id}" names observation ${check.observation}, but there are ${model.observations.length}`,
      );
    }
    if (known.has(check.observation))
      throw new RangeError(`check "${check.id}" is of an observation with evidence`);
  }
  let found = caseScenarios(model, input.priors, evidence, input.complaint, input.inference, input.network);
  const exact = found.kind !== 'too-wide';
  for (const fewer of narrowed(input)) {
    if (found.kind !== 'too-wide') break;
    found = caseScenarios(model, input.priors, fewer, input.complaint, input.inference);
  }
  if (found.kind !== 'ok') return found;
  const { scenarios, unresolved, oracle } = found;
  const offers = offersOf(model, input.checks, found);
  const asked = worthAsking(model, offers, scenarios, input.quickChecks?.known ?? 1);
  const problem: RepairProblem = {
    scenarios,
    unresolved,
    remedies: milderWorthTrying(remedies, scenarios),
    service: input.service ?? DEFAULT_SERVICE,
    ...(input.preparations && { preparations: input.preparations }),
    ...(input.prepared && { prepared: input.prepared }),
  };
  return {
    kind: 'ok',
    exact,
    next: withIndices(
      asked,
      nextStepAmong(
        problem,
        asked.map((index) => offers[index] as OpenOffer),
        {
          leastSavingMinutes: LEAST_SAVING_MINUTES,
          ...(input.quickChecks && { quickChecks: input.quickChecks }),
        },
      ),
    ),
    scenarios,
    unresolved,
    cureProbability: (remedy) => oracle.cure(remedies[remedy]?.removes ?? []) / (1 - oracle.alreadyGone),
    alreadyGone: oracle.alreadyGone,
  };
}

/**
 * What a general statement tells follows from one table for all causes, where a sign's own links were weighed one by one: its
 * promise is relied on by half. Our own.
 */
const TRUST_IN_STATEMENTS = 0.5;

/** An open check with what it would show, worked out once and kept. */
export interface OpenOffer extends CheckOffer {
  readonly observation: number;
  /** [row * levelCount + level], one row a scenario and a last one for when none holds. */
  readonly table: Float64Array;
}

/**
 * Open checks with forecasts for the scenarios found. All are forecast alike, parents taken as independent within a scenario: a
 * scenario forecast exactly beside others that are not would differ from them by its method alone.
 */
export function offersOf(
  model: GraphModel,
  checks: readonly OpenCheck[],
  { network, oracle, scenarios, unresolved }: Extract<CaseScenarios, { kind: 'ok' }>,
): readonly OpenOffer[] {
  const forecast = new ScenarioForecast(network, oracle, scenarios, unresolved);
  return checks.map((check) => {
    const node = model.observations[check.observation];
    const levelCount = node?.leak.length ?? 0;
    const table = new Float64Array((scenarios.length + 1) * levelCount);
    forecast.into(check.observation, table);
    return {
      ...check,
      levelCount,
      ...(node && goesWithAnything(node) && { trust: TRUST_IN_STATEMENTS }),
      table,
      forecast: (into) => into.set(table),
      inFull: () => ({
        id: check.id,
        minutes: check.minutes,
        ...(check.preparations && { preparations: check.preparations }),
        ...rowsOf(table, levelCount),
      }),
    };
  });
}

/** The table cut into a row for each scenario and the last for when none holds. */
function rowsOf(table: Float64Array, levelCount: number): Pick<Check, 'levels' | 'unresolvedLevels'> {
  const rows = Array.from({ length: table.length / levelCount }, (_, row) =>
    table.subarray(row * levelCount, (row + 1) * levelCount),
  );
  return { levels: rows.slice(0, -1), unresolvedLevels: rows.at(-1) ?? new Float64Array(levelCount) };
}

/** The likeliest scenarios, which a general statement has to tell apart to be worth asking. */
const LEADING_SCENARIOS = 3;
/** How far (0-1) its chance must differ between two of them. Our own. */
const LEAST_DIFFERENCE = 0.25;
/** A scenario leads from this probability on; a statement that is nothing to it is not asked. Our own. */
const LEADS = 0.35;
/** How far (0-1) the chance with the leading scenario must be from that of most causes. Our own. */
const LEAST_SAID = 0.15;

/**
 * Indices of the checks worth asking. A statement that goes with any complaint ("only at corners?"), and another complaint, is
 * asked only where the leading causes differ on it: of most it says nothing, and what little it tells of the rest is the guide's
 * question, not the operator's. Where one scenario leads, the statement must say something of that one; from probability `known`
 * on only its own signs are worth asking.
 */
function worthAsking(
  model: GraphModel,
  offers: readonly OpenOffer[],
  scenarios: readonly Scenario[],
  known: number,
): readonly number[] {
  const leading = Math.min(LEADING_SCENARIOS, scenarios.length);
  const first = scenarios[0]?.probability ?? 0;
  return [...offers.keys()].filter((index) => {
    const { observation, table, levelCount } = offers[index] as OpenOffer;
    const node = model.observations[observation];
    if (!node || !goesWithAnything(node) || leading < 2) return true;
    if (first >= known) return false;
    const absent = Array.from({ length: leading }, (_, row) => table[row * levelCount] ?? 1);
    if (Math.max(...absent) - Math.min(...absent) < LEAST_DIFFERENCE) return false;
    if (first < LEADS || node.accountLevels === undefined) return true;
    return Math.abs((absent[0] ?? 1) - usualAbsence(node.accountLevels)) >= LEAST_SAID;
  });
}

/** Whether an observation speaks of any complaint, not of the machine: a general statement, or another complaint. */
export function goesWithAnything({ accountLevels, reach }: GraphObservation): boolean {
  return accountLevels !== undefined || reach !== undefined;
}

const usualAbsences = new WeakMap<object, number>();

/** Chance that a statement is not made with the middle one of all causes: most causes say nothing of it. */
function usualAbsence(levels: readonly (readonly number[])[]): number {
  const known = usualAbsences.get(levels);
  if (known !== undefined) return known;
  const absences = levels.map((row) => row[0] ?? 1).sort((a, b) => a - b);
  const middle = absences[absences.length >> 1] ?? 1;
  usualAbsences.set(levels, middle);
  return middle;
}

/** The next step with its checks numbered as they were given. */
function withIndices(asked: readonly number[], next: NextStep): NextStep {
  const given = (check: number) => asked[check] ?? check;
  return {
    ...next,
    best: next.best.kind === 'check' ? { ...next.best, check: given(next.best.check) } : next.best,
    checks: next.checks.map((one) => ({ ...one, check: given(one.check) })),
  };
}

/** The findings with 1, 2, 4, ... and at last all of those left out that widen the network. */
function* narrowed({ model, evidence, complaint }: PlanCaseInput): Generator<readonly GraphEvidence[]> {
  const parents = (finding: GraphEvidence) => model.observations[finding.observation]?.links.length ?? 0;
  const wide = evidence
    .filter((finding) => !complaint.includes(finding.observation))
    .filter((finding) => finding.kind === 'likelihood' || finding.level > 0)
    .sort((a, b) => parents(b) - parents(a));
  for (let count = 1; ; count = Math.min(2 * count, wide.length)) {
    if (count > wide.length) return;
    const aside = new Set(wide.slice(0, count));
    yield evidence.filter((finding) => !aside.has(finding));
    if (count === wide.length) return;
  }
}
