import type { KnowledgeFault } from '../fault.ts';
import { distance, type Seen } from './lone-cause.ts';
import type { ThoroughInput } from './thorough-input.ts';

/** Share of cases in which some one check must answer differently for two causes to count as told apart. */
export const LEAST_DIFFERENCE = 0.2;

/**
 * Pairs of causes that no check tells apart: whatever is looked at, it answers alike in more than four of five cases.
 * Suggests to link the check that already separates them most.
 */
export function twinCauses({ knowledge, lists }: ThoroughInput, seen: readonly Seen[]): KnowledgeFault[] {
  const ids = [...knowledge.observations.keys()];
  const faults: KnowledgeFault[] = [];
  lists.causes.forEach(({ entry: first, at }, index) => {
    for (const { entry: second } of lists.causes.slice(index + 1)) {
      const nearest = farthestCheck(
        seen[knowledge.causeIndex.get(first.id) ?? -1] ?? [],
        seen[knowledge.causeIndex.get(second.id) ?? -1] ?? [],
      );
      if (nearest.difference >= LEAST_DIFFERENCE) continue;
      const check = ids[nearest.observation] ?? '';
      faults.push({
        code: 'twin-causes',
        ...at('id'),
        message: `no check tells "${first.id}" from "${second.id}"; the best, "${check}", answers differently in ${Math.round(nearest.difference * 100)} of 100 cases`,
        remedy: `link "${check}" more strongly to the one that shows it, or name a check that one of them answers alone`,
      });
    }
  });
  return faults;
}

function farthestCheck(a: Seen, b: Seen): { observation: number; difference: number } {
  let best = { observation: 0, difference: -1 };
  a.forEach((levels, observation) => {
    const difference = distance(levels, b[observation] ?? levels);
    if (difference > best.difference) best = { observation, difference };
  });
  return best;
}
