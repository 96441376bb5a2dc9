import type { RepairProblem } from './repair-problem.ts';
import { SubsetSpace } from './subset-space.ts';

/**
 * A repair problem laid out for fast evaluation. Scenario probabilities are passed to each call, so that one
 * layout serves every answer of every check.
 */
export interface RepairTables {
  readonly scenarioCount: number;
  /** Slots of the causes of scenario s: causeSlots[start[s]] ... causeSlots[start[s + 1] - 1]. */
  readonly start: Int32Array;
  readonly causeSlots: Int32Array;
  readonly causeCount: number;
  readonly remedies: readonly RemedyRow[];
  /** Minutes of each preparation, by number; 0 when it is made already. */
  readonly preparationMinutes: Float64Array;
  readonly serviceMinutes: number;
  /** Whether some scenario needs more than one cause removed. */
  readonly hasJointScenarios: boolean;
  /** Working space of searches over this layout. */
  readonly space: SubsetSpace;
}

export interface RemedyRow {
  /** Index in the problem's list. */
  readonly index: number;
  readonly minutes: number;
  readonly slots: Int32Array;
  /** Probability that the cause of each slot stays. */
  readonly stays: Float64Array;
  readonly scenarios: Int32Array;
  /** Bit `s & 31` for each of `scenarios`: rows without a bit in common change nothing for each other. */
  readonly touches: number;
  /** Those of `scenarios` that are a single cause, and the probability that it goes. */
  readonly singles: Int32Array;
  readonly goes: Float64Array;
  /** Those that take several causes. */
  readonly joints: Int32Array;
  readonly preparations: readonly number[];
  /** Indices of the remedies of the table that come before this one. */
  readonly after: readonly number[];
}

/** Remedies that touch no scenario are left out. */
export function repairTables(problem: RepairProblem): RepairTables {
  const slotOf = new Map<number, number>();
  const causeSlots: number[] = [];
  const start = new Int32Array(problem.scenarios.length + 1);
  problem.scenarios.forEach((scenario, s) => {
    for (const cause of scenario.causes) {
      let slot = slotOf.get(cause);
      if (slot === undefined) {
        slot = slotOf.size;
        slotOf.set(cause, slot);
      }
      causeSlots.push(slot);
    }
    start[s + 1] = causeSlots.length;
  });
  const names = [...(problem.preparations ?? new Map<string, number>()).keys()];
  const remedies: RemedyRow[] = [];
  // Scenarios of each cause, so that a remedy looks at those of its own causes only.
  const scenariosOf = new Map<number, number[]>();
  problem.scenarios.forEach(({ causes }, s) => {
    for (const cause of causes) scenariosOf.set(cause, [...(scenariosOf.get(cause) ?? []), s]);
  });
  problem.remedies.forEach((remedy, index) => {
    const acting = remedy.removes.filter(({ cause, probability }) => probability > 0 && slotOf.has(cause));
    if (acting.length === 0) return;
    const slots = Int32Array.from(acting, ({ cause }) => slotOf.get(cause) ?? -1);
    const scenarios = new Set(acting.flatMap(({ cause }) => scenariosOf.get(cause) ?? []));
    const singles = [...scenarios].filter((s) => problem.scenarios[s]?.causes.length === 1);
    const goesOf = (s: number) => acting.find(({ cause }) => cause === problem.scenarios[s]?.causes[0]);
    remedies.push({
      index,
      minutes: remedy.minutes,
      slots,
      stays: Float64Array.from(acting, ({ probability }) => 1 - probability),
      scenarios: Int32Array.from(scenarios).sort(),
      touches: [...scenarios].reduce((bits, s) => bits | (1 << (s & 31)), 0),
      singles: Int32Array.from(singles),
      goes: Float64Array.from(singles, (s) => goesOf(s)?.probability ?? 0),
      joints: Int32Array.from(scenarios).filter((s) => !singles.includes(s)),
      preparations: (remedy.preparations ?? []).map((name) => names.indexOf(name)),
      after: (remedy.after ?? []).map((id) => problem.remedies.findIndex((one) => one.id === id)),
    });
  });
  const isThere = new Set(remedies.map(({ index }) => index));
  return {
    scenarioCount: problem.scenarios.length,
    start,
    causeSlots: Int32Array.from(causeSlots),
    causeCount: slotOf.size,
    remedies: remedies.map((row) => ({ ...row, after: row.after.filter((index) => isThere.has(index)) })),
    preparationMinutes: Float64Array.from(names, (name) =>
      problem.prepared?.has(name) ? 0 : (problem.preparations?.get(name) ?? 0),
    ),
    serviceMinutes: problem.service.minutes,
    hasJointScenarios: problem.scenarios.some((scenario) => scenario.causes.length > 1),
    space: new SubsetSpace(),
  };
}

/** Of these rows, those kept and all that come before them, in the rows' order. */
export function withThoseBefore(
  rows: readonly RemedyRow[],
  kept: ReadonlySet<RemedyRow>,
): readonly RemedyRow[] {
  const needed = new Set([...kept].map(({ index }) => index));
  // Grows while it is walked: what comes before one may have something before it in turn.
  for (const index of needed)
    for (const before of rows.find((row) => row.index === index)?.after ?? []) needed.add(before);
  return rows.filter(({ index }) => needed.has(index));
}

/** Whether all that comes before this remedy has been done; `open` are the ones that have not. */
export function isOpenFor(row: RemedyRow, open: readonly RemedyRow[]): boolean {
  return row.after.length === 0 || !open.some(({ index }) => row.after.includes(index));
}

/** A probability that the complaint persists below this is rounding and counts as 0. */
export const NOTHING_LEFT = 1e-12;

/** Where a plan stands: what the remedies so far have left of each cause, and which preparations are made. */
export class RepairState {
  /** Probability that each cause is still there if it was. */
  readonly left: Float64Array;
  /** Probability that the complaint is still there in each scenario. */
  readonly held: Float64Array;
  /** Mean of `left` over the causes of each scenario. */
  private readonly meanLeft: Float64Array;
  readonly isPrepared: Uint8Array;
  /** Probability that the complaint is still there, over all scenarios and the unresolved rest. */
  persists = 0;
  private unresolved: number;
  private readonly tables: RepairTables;
  private probabilities: Float64Array;

  constructor(tables: RepairTables, probabilities: Float64Array, unresolved: number) {
    this.tables = tables;
    this.probabilities = probabilities;
    this.unresolved = unresolved;
    this.left = new Float64Array(tables.causeCount);
    this.held = new Float64Array(tables.scenarioCount);
    this.meanLeft = new Float64Array(tables.scenarioCount);
    this.isPrepared = new Uint8Array(tables.preparationMinutes.length);
    this.reset();
  }

  /** Nothing done, under other probabilities. */
  restart(probabilities: Float64Array, unresolved: number): void {
    this.probabilities = probabilities;
    this.unresolved = unresolved;
    this.reset();
  }

  /** Back to nothing done. */
  reset(): void {
    this.left.fill(1);
    this.held.fill(1);
    this.meanLeft.fill(1);
    this.isPrepared.fill(0);
    this.persists = this.unresolved;
    for (let s = 0; s < this.tables.scenarioCount; s++) this.persists += this.probabilities[s] as number;
  }

  /** Minutes of doing this remedy now. */
  minutes(remedy: RemedyRow): number {
    let minutes = remedy.minutes;
    for (const name of remedy.preparations) {
      if (!this.isPrepared[name]) minutes += this.tables.preparationMinutes[name] ?? 0;
    }
    return minutes;
  }

  /** Probability that this remedy, done now, ends the complaint (not divided by `persists`). */
  gain(remedy: RemedyRow): number {
    const { joints } = remedy;
    let gain = this.gainOfSingles(remedy);
    if (joints.length === 0) return gain;
    this.scale(remedy, 1);
    for (let k = 0; k < joints.length; k++) {
      const s = joints[k] as number;
      gain += (this.probabilities[s] as number) * ((this.held[s] as number) - this.heldOf(s));
    }
    this.scale(remedy, -1);
    return Math.max(0, gain);
  }

  /**
   * `gain`, with half credit for a cause removed from a scenario that needs others removed too. Equal to `gain`
   * where every scenario is a single cause.
   */
  progress(remedy: RemedyRow): number {
    const { joints } = remedy;
    let progress = this.gainOfSingles(remedy);
    if (joints.length === 0) return progress;
    this.scale(remedy, 1);
    for (let k = 0; k < joints.length; k++) {
      const s = joints[k] as number;
      const cured = (this.held[s] as number) - this.heldOf(s);
      const removed = (this.meanLeft[s] as number) - this.meanLeftOf(s);
      progress += (this.probabilities[s] as number) * 0.5 * (cured + removed);
    }
    this.scale(remedy, -1);
    return Math.max(0, progress);
  }

  private gainOfSingles({ singles, goes }: RemedyRow): number {
    let gain = 0;
    for (let k = 0; k < singles.length; k++) {
      const s = singles[k] as number;
      gain += (this.probabilities[s] as number) * (this.held[s] as number) * (goes[k] as number);
    }
    return gain;
  }

  /** Chance of each scenario with the complaint still there. */
  chances(): Float64Array {
    return this.held.map((held, s) => held * (this.probabilities[s] as number));
  }

  apply(remedy: RemedyRow): void {
    this.scale(remedy, 1);
    for (let k = 0; k < remedy.scenarios.length; k++) {
      const s = remedy.scenarios[k] as number;
      const after = this.heldOf(s);
      this.persists -= (this.probabilities[s] as number) * ((this.held[s] as number) - after);
      this.held[s] = after;
      this.meanLeft[s] = this.meanLeftOf(s);
    }
    // What is left of a sum that should be 0 is rounding.
    if (this.persists < NOTHING_LEFT) this.persists = 0;
    for (const name of remedy.preparations) this.isPrepared[name] = 1;
  }

  private heldOf(scenario: number): number {
    let gone = 1;
    const { start, causeSlots } = this.tables;
    for (let k = start[scenario] as number; k < (start[scenario + 1] as number); k++) {
      gone *= 1 - (this.left[causeSlots[k] as number] as number);
    }
    return 1 - gone;
  }

  private meanLeftOf(scenario: number): number {
    const { start, causeSlots } = this.tables;
    const from = start[scenario] as number;
    const to = start[scenario + 1] as number;
    let sum = 0;
    for (let k = from; k < to; k++) sum += this.left[causeSlots[k] as number] as number;
    return sum / (to - from);
  }

  private readonly saved: number[] = [];

  private scale(remedy: RemedyRow, direction: 1 | -1): void {
    // Kept and put back, not divided back: a certain removal leaves 0.
    for (let k = 0; k < remedy.slots.length; k++) {
      const slot = remedy.slots[k] as number;
      if (direction === 1) {
        this.saved[k] = this.left[slot] as number;
        this.left[slot] = (this.left[slot] as number) * (remedy.stays[k] as number);
      } else {
        this.left[slot] = this.saved[k] ?? 1;
      }
    }
  }
}
