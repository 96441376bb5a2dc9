import { infer, type GraphEvidence } from '../../inference/index.ts';
import { CAUSE_NOT_IN_GUIDE } from '../compile.ts';
import type { KnowledgeFault } from '../fault.ts';
import { shownBy, type Seen } from './lone-cause.ts';
import type { ThoroughInput } from './thorough-input.ts';

/** Place (from 1) that a cause must reach when everything is answered as it alone would show it. */
export const WORST_RANK = 3;

/**
 * Causes that stay below the third place even when every check of theirs is answered at its most likely level.
 * Deterministic: nothing is drawn.
 */
export function hiddenCauses({ knowledge, lists }: ThoroughInput, seen: readonly Seen[]): KnowledgeFault[] {
  const ids = [...knowledge.causes.keys()];
  const { priors } = knowledge.priorsUnder({});
  return lists.causes.flatMap(({ entry, at }) => {
    if (entry.id === CAUSE_NOT_IN_GUIDE) return [];
    const cause = knowledge.causeIndex.get(entry.id) ?? -1;
    const evidence = shownBy(knowledge.graph, cause).map(
      (observation): GraphEvidence => ({
        observation,
        kind: 'level',
        level: likeliest(seen[cause]?.[observation] ?? []),
      }),
    );
    const posterior = infer(knowledge.graph, priors, evidence);
    if (posterior.kind !== 'ok') return [];
    const own = posterior.causes[cause] ?? 0;
    const ahead = ids.filter((_, index) => (posterior.causes[index] ?? 0) > own);
    if (ahead.length < WORST_RANK) return [];
    return [
      {
        code: 'hidden-cause',
        ...at('shows'),
        message: `"${entry.id}" ranks only ${ahead.length + 1} when all its checks are answered as it alone would show them; ahead are ${ahead
          .slice(0, 4)
          .map((id) => `"${id}"`)
          .join(', ')}`,
        remedy: 'link a check that this cause answers and those do not, or strengthen the links that it has',
      },
    ];
  });
}

/** Found or not is settled first, as one who looks would; only then the grade or band that it most likely has. */
function likeliest([none = 0, ...found]: readonly number[]): number {
  if (none > 0.5) return 0;
  return 1 + found.reduce((best, value, index) => (value > (found[best] ?? 0) ? index : best), 0);
}
