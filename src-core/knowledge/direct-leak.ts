import type { GraphModel } from '../inference/network/graph-model.ts';

/**
 * What was seen or measured on the machine itself is seldom nothing: where no table of readers says how often, leaks make up
 * at most this share of what the causes of the guide raise. Our own estimate.
 */
const MOST_BY_CHANCE = 0.5;
/** A leak above this says that the thing is met often with nothing behind it: then it stands. */
const MET_OFTEN = 0.03;

/**
 * The leak of an observation, no greater than what its causes together leave room for.
 *
 * `raised[level]` is how often the guide's causes raise that level. A leak that was set without looking at how rare the
 * causes are would otherwise outweigh them: a sensor that is off its table would count as a slip of the meter.
 * Levels that no cause raises keep their leak.
 */
export function cappedLeak(leak: readonly number[], raised: readonly number[]): number[] {
  const capped = leak.map((own, level) => {
    const most = MOST_BY_CHANCE * (raised[level] ?? 0);
    return level > 0 && most > 0 && own <= MET_OFTEN ? Math.min(own, most) : own;
  });
  const some = capped.slice(1).reduce((sum, share) => sum + share, 0);
  return capped.map((share, level) => (level === 0 ? 1 - some : share));
}

/** How often causes raise each level of an observation, each cause with its prior and by itself. */
export function raisedByCauses(graph: GraphModel, observation: number): number[] {
  const node = graph.observations[observation];
  const raised = (node?.leak ?? []).map(() => 0);
  for (const { from, levels } of node?.links ?? []) {
    const present =
      from.kind === 'cause' ? (graph.causes[from.index]?.prior ?? 0) : driven(graph, from.index);
    levels.forEach((share, level) => (raised[level] = (raised[level] ?? 0) + present * share));
  }
  return raised;
}

function driven(graph: GraphModel, mechanism: number): number {
  const { leak, links } = graph.mechanisms[mechanism] ?? { leak: 0, links: [] };
  return (
    leak +
    links.reduce((sum, { cause, probability }) => sum + (graph.causes[cause]?.prior ?? 0) * probability, 0)
  );
}
