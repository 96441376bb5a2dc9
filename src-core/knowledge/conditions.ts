import type { When } from './schema.ts';

/** What is known of a case's circumstances: condition id to a value's id or a number in the condition's unit. */
export type Conditions = Readonly<Record<string, string | number>>;

/** Whether every clause of `when` is known to hold; an unknown condition never holds. */
export function knownToHold(when: When, conditions: Conditions): boolean {
  return Object.entries(when).every(([id, test]) => {
    const known = conditions[id];
    return known !== undefined && clauseHolds(test, known);
  });
}

/** Whether some clause of `when` is known to be false; unknown conditions contradict nothing. */
export function knownToFail(when: When, conditions: Conditions): boolean {
  return Object.entries(when).some(([id, test]) => {
    const known = conditions[id];
    return known !== undefined && !clauseHolds(test, known);
  });
}

function clauseHolds(test: When[string], known: string | number): boolean {
  if (typeof test === 'string') return known === test;
  if (Array.isArray(test)) return typeof known === 'string' && test.includes(known);
  if (typeof known !== 'number') return false;
  return (
    (test.atLeast === undefined || known >= test.atLeast) && (test.below === undefined || known < test.below)
  );
}
