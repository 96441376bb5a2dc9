import { RANGE_PATTERN } from '../contract/common.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { nearestId } from '../knowledge/nearest-id.ts';
import { unknownId } from '../knowledge/unknown-id.ts';
import { faults } from '../words/en/faults.ts';
import type { Message } from '../words/message.ts';

/**
 * What is said short of certainty, as likelihoods of "not there" and "there". Our own estimates: "probably" is odds of four
 * to one, 6 decibans; "sometimes" is there now and then, which is there, seen by somebody who may be mistaken.
 */
const HEDGED: ReadonlyMap<string, readonly [absent: number, present: number]> = new Map([
  ['present', [0, 1]],
  ['sometimes', [0.1, 1]],
  ['probably', [0.25, 1]],
  ['probably-not', [1, 0.25]],
]);

/**
 * The level (index, 0 = absent, none or normal) that a finding's value stands for; requires a value without fault. "Present"
 * with the grade not said and what is only probable stand for the lowest grade, a range for the band of its middle.
 */
export function levelOfFinding(knowledge: Knowledge, observation: string, value: string | number): number {
  const levels = knowledge.levelsOf(observation);
  if (typeof value === 'number') return bandOf(knowledge, observation, value);
  const level = levels.indexOf(value);
  if (level >= 0) return level;
  const range = rangeOf(value);
  if (range) return bandOf(knowledge, observation, (range[0] + range[1]) / 2);
  if (value === 'absent' || value === 'probably-not') return 0;
  return HEDGED.has(value) ? 1 : -1;
}

/** Likelihood of each level where the value leaves more than one open; null where it is one level, or none. */
export function likelihoodOfFinding(
  knowledge: Knowledge,
  observation: string,
  value: string | number,
): readonly number[] | null {
  const levels = knowledge.levelsOf(observation);
  if (typeof value === 'number' || levels.includes(value)) return null;
  const range = rangeOf(value);
  if (range) return overlaps(knowledge, observation, range);
  const hedged = HEDGED.get(value);
  return hedged ? levels.map((_, level) => hedged[level === 0 ? 0 : 1]) : null;
}

/** Whether a value says only that it may be so ("probably", "sometimes"), and is no level of the observation's own. */
export function isHedged(knowledge: Knowledge, observation: string, value: string | number): boolean {
  if (typeof value === 'number' || knowledge.levelsOf(observation).includes(value)) return false;
  return HEDGED.get(value)?.every((likelihood) => likelihood > 0) ?? false;
}

/** What is wrong with a finding under this guide, or null. */
export function faultOfFinding(
  knowledge: Knowledge,
  observation: string,
  value: string | number,
): Message | null {
  const entry = knowledge.observations.get(observation);
  if (!entry) return unknownId('observation', knowledge.observations, observation);
  const levels = knowledge.levelsOf(observation);
  const outside = (one: number) =>
    entry.measure && !(one >= entry.measure.min && one <= entry.measure.max)
      ? faults.outside({ ...limitsOf(entry.measure), id: observation, value: one })
      : null;
  if (typeof value === 'string') {
    const range = rangeOf(value);
    if (range) {
      if (!entry.measure) return faults.notARange({ id: observation, list: levels });
      if (range[0] > range[1]) return faults.lowerFirst({ id: observation, value });
      return outside(range[0]) ?? outside(range[1]);
    }
    if (levels.includes(value) || HEDGED.has(value) || value === 'absent') return null;
    const words = [...levels, ...HEDGED.keys()];
    const near = nearestId(value, words);
    return withHint(faults.noAnswer({ value, id: observation }), near, levels);
  }
  if (!entry.measure) return faults.notANumber({ id: observation, list: levels });
  return outside(value);
}

/** What is wrong with a condition under this guide, or null. */
export function faultOfCondition(knowledge: Knowledge, id: string, value: string | number): Message | null {
  const condition = knowledge.conditions.get(id);
  if (!condition) return unknownId('condition', knowledge.conditions, id);
  if (condition.number) {
    if (typeof value !== 'number') return faults.takesANumber({ id, unit: condition.number.unit, value });
    return value >= condition.number.min && value <= condition.number.max
      ? null
      : faults.outside({ ...limitsOf(condition.number), id, value });
  }
  const allowed = condition.values?.map((one) => one.id) ?? [];
  if (allowed.includes(String(value))) return null;
  const near = nearestId(String(value), allowed);
  return withHint(faults.noValue({ value, id }), near, allowed);
}

function limitsOf({ min, max, unit }: { readonly min: number; readonly max: number; readonly unit: string }) {
  return { min, max, unit };
}

function withHint(what: Message, near: string | null | undefined, allowed: readonly string[]): Message {
  return near ? faults.didYouMean({ what, near }) : faults.useOneOf({ what, list: allowed });
}

function bandOf(knowledge: Knowledge, observation: string, value: number): number {
  const bands = knowledge.observations.get(observation)?.measure?.bands ?? [];
  return bands.findIndex((band) => value >= (band.from ?? -Infinity) && value < (band.below ?? Infinity));
}

function rangeOf(value: string): readonly [number, number] | null {
  const found = RANGE_PATTERN.exec(value);
  return found ? [Number(found[1]), Number(found[2])] : null;
}

/** The share of the range in each band: every value within it counts alike. A range of no width is its one value. */
function overlaps(
  knowledge: Knowledge,
  observation: string,
  [low, high]: readonly [number, number],
): number[] {
  const bands = knowledge.observations.get(observation)?.measure?.bands ?? [];
  if (low === high) {
    const only = bandOf(knowledge, observation, low);
    return bands.map((_, band) => (band === only ? 1 : 0));
  }
  return bands.map(
    ({ from = -Infinity, below = Infinity }) =>
      Math.max(0, Math.min(high, below) - Math.max(low, from)) / (high - low),
  );
}
