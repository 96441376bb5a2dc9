import type { KnowledgeFault } from '../fault.ts';
import type { Seen } from './lone-cause.ts';
import type { ThoroughInput } from './thorough-input.ts';

/** An answer counts when it moves the odds of some cause by at least this factor (3 decibans). */
export const LEAST_ODDS_FACTOR = 2;
/** Answers rarer than this under both hypotheses are not waited for. */
const LEAST_ANSWER_PROBABILITY = 0.02;

/** Observations whose answer never changes anything: none of their levels moves any cause's odds to speak of. */
export function idleObservations(
  { knowledge, lists }: ThoroughInput,
  seen: readonly Seen[],
  seenWithNone: Seen,
): KnowledgeFault[] {
  return lists.observations.flatMap(({ entry, at }) => {
    const index = knowledge.observationIndex.get(entry.id) ?? -1;
    const without = seenWithNone[index] ?? [];
    if (seen.some((one) => oddsFactor(one[index] ?? without, without) >= LEAST_ODDS_FACTOR)) return [];
    return [
      {
        code: 'idle-observation',
        ...at('leak'),
        message: `whatever is answered to "${entry.id}", no cause's odds change by a factor of ${LEAST_ODDS_FACTOR}`,
        remedy: 'lower its leak, strengthen the link of a cause that shows it, or remove it',
      },
    ];
  });
}

/** The largest factor, up or down, by which an answer worth waiting for moves the odds. */
function oddsFactor(withCause: readonly number[], without: readonly number[]): number {
  return withCause.reduce((largest, given, level) => {
    const other = without[level] ?? 0;
    if (Math.max(given, other) < LEAST_ANSWER_PROBABILITY) return largest;
    const ratio = given / other;
    return Math.max(largest, ratio, 1 / ratio);
  }, 1);
}
