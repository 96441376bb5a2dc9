import type { Knowledge } from '../knowledge/knowledge.ts';
import { nearestId } from '../knowledge/nearest-id.ts';
import { unknownId } from '../knowledge/unknown-id.ts';

/** The level (index, 0 = absent, none or normal) that a finding's value stands for; requires a value without fault. */
export function levelOfFinding(knowledge: Knowledge, observation: string, value: string | number): number {
  const levels = knowledge.levelsOf(observation);
  if (typeof value === 'string') return levels.indexOf(value);
  const bands = knowledge.observations.get(observation)?.measure?.bands ?? [];
  return bands.findIndex((band) => value >= (band.from ?? -Infinity) && value < (band.below ?? Infinity));
}

/** What is wrong with a finding under this guide, or null. */
export function faultOfFinding(
  knowledge: Knowledge,
  observation: string,
  value: string | number,
): string | null {
  const entry = knowledge.observations.get(observation);
  if (!entry) return unknownId('observation', knowledge.observations, observation);
  const levels = knowledge.levelsOf(observation);
  if (typeof value === 'string') {
    if (levels.includes(value)) return null;
    const near = nearestId(value, levels);
    return `"${value}" is no answer to "${observation}"; ${near ? `did you mean "${near}"?` : `use ${levels.join(', ')}`}`;
  }
  if (!entry.measure) return `"${observation}" takes ${levels.join(', ')}, not a number`;
  const { min, max, unit } = entry.measure;
  return value >= min && value <= max
    ? null
    : `"${observation}" is ${value} ${unit}; it must lie between ${min} and ${max} ${unit}`;
}

/** What is wrong with a condition under this guide, or null. */
export function faultOfCondition(knowledge: Knowledge, id: string, value: string | number): string | null {
  const condition = knowledge.conditions.get(id);
  if (!condition) return unknownId('condition', knowledge.conditions, id);
  if (condition.number) {
    const { min, max, unit } = condition.number;
    if (typeof value !== 'number') return `"${id}" takes a number of ${unit}, not "${value}"`;
    return value >= min && value <= max
      ? null
      : `"${id}" is ${value} ${unit}; it must lie between ${min} and ${max} ${unit}`;
  }
  const allowed = condition.values?.map((one) => one.id) ?? [];
  if (allowed.includes(String(value))) return null;
  const near = nearestId(String(value), allowed);
  return `"${value}" is no value of "${id}"; ${near ? `did you mean "${near}"?` : `use ${allowed.join(', ')}`}`;
}
