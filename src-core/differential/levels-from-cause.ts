import type { GraphModel, GraphObservation } from '../inference/index.ts';

/** Gives the distribution over the levels of an observation, by its index. */
export type LevelsOf = (observation: number) => readonly number[];

/**
 * Distribution over the levels of an observation where this cause alone is at work, or nothing of the guide where it is null:
 * exact, with what it brings about through mechanisms. An observation that speaks of what accounts for the complaint is
 * read off its table, as `drawWorld` draws it.
 */
export function levelsFromCauseAlone(graph: GraphModel, cause: number | null): LevelsOf {
  // With one cause given, mechanisms go independently of each other.
  const going = graph.mechanisms.map(
    ({ leak, links }) =>
      1 -
      links.reduce((silent, link) => silent * (link.cause === cause ? 1 - link.probability : 1), 1 - leak),
  );
  return (index) => {
    const observation = graph.observations[index];
    if (!observation) throw new RangeError(`the network has no observation ${index}`);
    const { leak, links, accountLevels } = observation;
    const chances = accountLevels
      ? [{ chance: 1, levels: (cause === null ? undefined : accountLevels[cause]) ?? [1] }]
      : links.map(({ from, levels }) => ({
          chance: from.kind === 'mechanism' ? (going[from.index] ?? 0) : Number(from.index === cause),
          levels,
        }));
    return highestOf(leak, chances);
  };
}

/** Distribution of the highest of independent levels, each there with its chance and else at level 0 (noisy-MAX). */
export function highestOf(
  leak: GraphObservation['leak'],
  parts: readonly { readonly chance: number; readonly levels: readonly number[] }[],
): number[] {
  const atMost = leak.map((_, level) =>
    parts.reduce(
      (product, { chance, levels }) => product * (1 - chance * (1 - sumTo(levels, level))),
      sumTo(leak, level),
    ),
  );
  // Rounding may leave a difference a hair below 0.
  return atMost.map((probability, level) => Math.max(0, probability - (atMost[level - 1] ?? 0)));
}

function sumTo(levels: readonly number[], last: number): number {
  return levels.slice(0, last + 1).reduce((sum, one) => sum + one, 0);
}
