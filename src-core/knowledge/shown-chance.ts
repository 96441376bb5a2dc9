import type { GraphModel } from '../inference/network/graph-model.ts';
import { throughMechanisms } from './account-levels.ts';

/**
 * How often (0–1) a cause alone brings an observation about, at any level and with the leak silent, where nobody complains of it:
 * what the facets say of it, or links and mechanisms.
 */
export function shownBeside(graph: GraphModel, observation: number, cause: number): number {
  const node = graph.observations[observation];
  const told = node?.accountLevels?.[cause];
  if (told) return 1 - (told[0] ?? 1);
  const direct = node?.links.find(({ from }) => from.kind === 'cause' && from.index === cause);
  return 1 - (direct?.levels[0] ?? 1) * (1 - throughMechanisms(graph, observation, cause));
}

/** The link that, beside what the mechanisms bring, makes up the whole; null where they bring as much by themselves. */
export function besideMechanisms(levels: readonly number[], mechanisms: number): readonly number[] | null {
  const whole = 1 - (levels[0] ?? 1);
  if (whole <= mechanisms) return null;
  const own = 1 - (1 - whole) / (1 - mechanisms);
  return levels.map((p, level) => (level === 0 ? 1 - own : (p / whole) * own));
}
