import type { Knowledge } from '../knowledge/knowledge.ts';
import { levelOfFinding } from './finding-level.ts';

/** Danger signs that are not surely absent, in the order of the findings: one that is "probably not" there stops a case, too. */
export function dangerSignsIn(
  knowledge: Knowledge,
  findings: Readonly<Record<string, string | number>>,
): readonly string[] {
  return Object.entries(findings)
    .filter(
      ([id, value]) =>
        knowledge.observations.get(id)?.danger &&
        (value === 'probably-not' || levelOfFinding(knowledge, id, value) > 0),
    )
    .map(([id]) => id);
}
