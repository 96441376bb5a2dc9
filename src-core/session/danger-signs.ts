import type { Knowledge } from '../knowledge/knowledge.ts';
import { levelOfFinding } from './finding-level.ts';

/** Danger signs that were found, in the order of the findings. */
export function dangerSignsIn(
  knowledge: Knowledge,
  findings: Readonly<Record<string, string | number>>,
): readonly string[] {
  return Object.entries(findings)
    .filter(
      ([id, value]) => knowledge.observations.get(id)?.danger && levelOfFinding(knowledge, id, value) > 0,
    )
    .map(([id]) => id);
}
