/**
 * What planning works on: a few explicit ways in which the complaint can be held up, and what steps cost. Indices
 * and minutes only; nothing here knows words.
 */
export interface RepairProblem {
  readonly scenarios: readonly Scenario[];
  /** Probability that none of the scenarios holds: only the service call ends such a case. */
  readonly unresolved: number;
  readonly remedies: readonly Remedy[];
  readonly service: ServiceCall;
  /** One-off minutes of each preparation (cover off, machine hot), paid by the first step that needs it. */
  readonly preparations?: ReadonlyMap<string, number>;
  /** Preparations made already. */
  readonly prepared?: ReadonlySet<string>;
}

/** The complaint goes when all of `causes` are gone, and not before. */
export interface Scenario {
  readonly causes: readonly number[];
  /** Probability; all scenarios and `unresolved` together make 1. */
  readonly probability: number;
}

export interface Remedy {
  readonly id: string;
  readonly minutes: number;
  readonly removes: readonly { readonly cause: number; readonly probability: number }[];
  readonly preparations?: readonly string[];
  /**
   * Ids of remedies that come before this one: milder ones, or ones without which it makes no sense. Those that are not in
   * the problem, or touch none of its scenarios, do not bind.
   */
  readonly after?: readonly string[];
}

/** Handing over to the lead, which always ends the case. Infinity: there is nobody to hand over to. */
export interface ServiceCall {
  readonly minutes: number;
}

/** Our own default: half a working day of somebody with more tools. */
export const DEFAULT_SERVICE: ServiceCall = { minutes: 240 };

const TOLERANCE = 1e-6;

/** Throws on a number out of range, naming the thing, the rule and what came. */
export function requireProblem(problem: RepairProblem): void {
  let total = problem.unresolved;
  requireNonNegative(problem.unresolved, 'unresolved probability');
  problem.scenarios.forEach((scenario, index) => {
    requireNonNegative(scenario.probability, `probability of scenario ${index}`);
    if (scenario.causes.length === 0)
      throw new RangeError(`scenario ${index} must name at least one cause, got none`);
    total += scenario.probability;
  });
  if (!(Math.abs(total - 1) <= TOLERANCE)) {
    throw new RangeError(`scenarios and the unresolved rest must sum to 1, got ${total}`);
  }
  for (const remedy of problem.remedies) {
    if (!(remedy.minutes > 0 && remedy.minutes < Infinity)) {
      throw new RangeError(
        `minutes of remedy "${remedy.id}" must be finite and above 0, got ${remedy.minutes}`,
      );
    }
    for (const { cause, probability } of remedy.removes) {
      if (!(probability >= 0 && probability <= 1)) {
        throw new RangeError(
          `remedy "${remedy.id}" on cause ${cause} must have a probability from 0 to 1, got ${probability}`,
        );
      }
    }
    for (const name of remedy.preparations ?? []) {
      if (!problem.preparations?.has(name)) {
        throw new RangeError(`remedy "${remedy.id}" needs preparation "${name}", which has no minutes`);
      }
    }
  }
  for (const [name, minutes] of problem.preparations ?? [])
    requireNonNegative(minutes, `minutes of preparation "${name}"`);
  if (!(problem.service.minutes > 0)) {
    throw new RangeError(`minutes of the service call must be above 0, got ${problem.service.minutes}`);
  }
}

function requireNonNegative(value: number, what: string): void {
  if (!(value >= 0 && value < Infinity))
    throw new RangeError(`${what} must be finite and >= 0, got ${value}`);
}
