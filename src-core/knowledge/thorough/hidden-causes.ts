import { CAUSE_NOT_IN_GUIDE } from '../compile.ts';
import type { KnowledgeFault } from '../fault.ts';
import { shownBy, type Seen } from './lone-cause.ts';
import type { ThoroughInput } from './thorough-input.ts';

/** Place (from 1) that a cause must reach when everything is answered as it alone would show it. */
export const WORST_RANK = 3;
/** What speaks of the cause that accounts for a complaint is asked where its answer is this much likelier than on average. */
const TELLING_RATIO = 1.5;

/**
 * Causes that stay below the third place even when every check of theirs is answered at its most likely level. One cause
 * is taken to be at work at a time, as candidates are ranked by what accounts for a complaint. Deterministic: nothing is
 * drawn.
 */
export function hiddenCauses(
  { knowledge, lists }: ThoroughInput,
  seen: readonly Seen[],
  seenWithNone: Seen,
): KnowledgeFault[] {
  const ids = [...knowledge.causes.keys()];
  const { priors } = knowledge.priorsUnder({});
  return lists.causes.flatMap(({ entry, at }) => {
    if (entry.id === CAUSE_NOT_IN_GUIDE) return [];
    const cause = knowledge.causeIndex.get(entry.id) ?? -1;
    const own = seen[cause] ?? [];
    const answers = [
      ...shownBy(knowledge.graph, cause),
      ...tellingAccounts(knowledge.graph.observations, own, seenWithNone),
    ].map((observation) => ({ observation, level: likeliest(own[observation] ?? []) }));
    const logShare = (index: number) =>
      answers.reduce(
        (sum, { observation, level }) => sum + Math.log(seen[index]?.[observation]?.[level] ?? 0),
        Math.log(priors[index] ?? 0),
      );
    const ownShare = logShare(cause);
    const ahead = ids.filter((_, index) => logShare(index) > ownShare);
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

/** Observations that speak of what accounts for a complaint and whose likeliest answer is telling of the cause. */
function tellingAccounts(
  observations: ThoroughInput['knowledge']['graph']['observations'],
  own: Seen,
  onAverage: Seen,
): number[] {
  return observations.flatMap(({ accountLevels }, index) => {
    if (!accountLevels) return [];
    const level = likeliest(own[index] ?? []);
    return (own[index]?.[level] ?? 0) >= TELLING_RATIO * (onAverage[index]?.[level] ?? 0) ? [index] : [];
  });
}

/** Found or not is settled first, as one who looks would; only then the grade or band that it most likely has. */
function likeliest([none = 0, ...found]: readonly number[]): number {
  if (none > 0.5) return 0;
  return 1 + found.reduce((best, value, index) => (value > (found[best] ?? 0) ? index : best), 0);
}
