import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseContext } from './case-context.ts';
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

/** Whether a danger sign is there that nobody qualified has taken over yet: then a case is neither closed nor put away. */
export function isUnderDanger(
  knowledge: Knowledge,
  { takenOverBy, findings }: Pick<CaseContext, 'takenOverBy' | 'findings'>,
): boolean {
  return takenOverBy === null && dangerSignsIn(knowledge, findings).length > 0;
}
