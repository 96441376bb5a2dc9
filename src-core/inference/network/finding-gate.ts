import type { ComplaintEvent } from './worlds.ts';

/**
 * One observation with evidence, reduced to the few states that the evidence can tell apart. Neighbouring
 * levels with the same likelihood are one state, and levels above the highest possible one are dropped (their
 * weight is lost, which is what conditioning means). With a complaint that must still be there in a later
 * world, a state also says whether anything alive in that world raised it.
 */
export interface FindingGate {
  readonly states: number;
  readonly closes: Float64Array;
  readonly join: Int32Array;
  /** Weights over states that a present parent raises, by its class; the leak is of the highest class. */
  raised(levels: readonly number[], aliveClass: number): Float64Array;
}

const NO_DEMAND: ComplaintEvent = { goneAt: null, heldAt: null };

/**
 * Builds the gate from the likelihood of each level (not all 0), the demand, and the world it was seen in.
 * `keepsExcluded` keeps levels above the highest possible one as a state of likelihood 0, unless the gate is worth a
 * single number without them.
 */
export function findingGate(
  likelihood: readonly number[],
  demand = NO_DEMAND,
  seenInWorld = 0,
  keepsExcluded = false,
): FindingGate {
  const highest = likelihood.findLastIndex((value) => value > 0);
  const isScalar = likelihood.slice(0, highest + 1).every((value) => value === likelihood[0]);
  const top = keepsExcluded && !isScalar ? likelihood.length - 1 : highest;
  const runOf: number[] = [];
  for (let level = 0; level <= top; level++) {
    const before = runOf[level - 1] ?? -1;
    runOf.push(level > 0 && likelihood[level] === likelihood[level - 1] ? before : before + 1);
  }
  const runs = top < 0 ? 1 : (runOf[top] ?? 0) + 1;
  const flags = demand.heldAt === null ? [0] : [0, 1];
  // A run that holds level 0 alone cannot have been raised in any world.
  const isOnlyNone = (run: number) => run === 0 && runOf[1] !== 0;
  const states: { run: number; flag: number }[] = [];
  for (let run = 0; run < runs; run++) {
    for (const flag of flags) if (flag === 0 || !isOnlyNone(run)) states.push({ run, flag });
  }
  const stateOf = (run: number, flag: number) =>
    states.findIndex((state) => state.run === run && state.flag === flag);

  const closes = new Float64Array(states.length);
  states.forEach(({ run, flag }, state) => {
    if (demand.heldAt === null || flag === 1) closes[state] = likelihood[runOf.indexOf(run)] ?? 0;
  });
  const join = new Int32Array(states.length * states.length);
  states.forEach((a, i) => {
    states.forEach((b, j) => {
      join[i * states.length + j] = stateOf(Math.max(a.run, b.run), Math.max(a.flag, b.flag));
    });
  });

  const raised = (levels: readonly number[], aliveClass: number): Float64Array => {
    const weights = new Float64Array(states.length);
    if (aliveClass <= seenInWorld) {
      weights[0] = 1;
      return weights;
    }
    const mustBeSilent = demand.goneAt !== null && aliveClass > demand.goneAt;
    const carries = demand.heldAt !== null && aliveClass > demand.heldAt;
    const last = mustBeSilent ? Math.min(0, top) : top;
    for (let level = 0; level <= last; level++) {
      const state = stateOf(runOf[level] ?? 0, carries && level > 0 ? 1 : 0);
      weights[state] = (weights[state] ?? 0) + (levels[level] ?? 0);
    }
    return weights;
  };
  return { states: states.length, closes, join, raised };
}
