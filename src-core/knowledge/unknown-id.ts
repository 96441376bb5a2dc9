import { faults } from '../words/en/faults.ts';
import type { Message } from '../words/message.ts';
import { nearestId } from './nearest-id.ts';

const UNKNOWN = {
  cause: faults.unknownCause,
  observation: faults.unknownObservation,
  condition: faults.unknownCondition,
  remedy: faults.unknownRemedy,
  practice: faults.unknownPractice,
};

/** "unknown cause "wet-filamnt"; did you mean "wet-filament"?" or null when it is known. */
export function unknownId(
  what: keyof typeof UNKNOWN,
  known: ReadonlyMap<string, unknown>,
  id: string,
): Message | null {
  if (known.has(id)) return null;
  const near = nearestId(id, known.keys());
  const unknown = UNKNOWN[what]({ id });
  return near ? faults.didYouMean({ what: unknown, near }) : unknown;
}
