import { highestOf, levelsFromCauseAlone } from '../../differential/levels-from-cause.ts';
import type { GraphModel } from '../../inference/index.ts';

/** What is seen of one cause: for each observation (by index) its distribution over levels. */
export type Seen = readonly (readonly number[])[];

/**
 * What is seen while exactly one cause is at work, mechanisms and leaks included. What speaks of the cause that accounts for a
 * complaint speaks of the lone one; with none, it is as with a cause picked by the priors.
 *
 * @param cause Index of the cause at work, or null for none.
 */
export function seenWithOnly(model: GraphModel, cause: number | null): Seen {
  const alone = levelsFromCauseAlone(model, cause);
  return model.observations.map(({ leak, accountLevels }, index) =>
    cause === null && accountLevels
      ? highestOf(leak, [{ chance: 1, levels: meanLevels(model, accountLevels) }])
      : alone(index),
  );
}

/** What is seen on average over the causes, each weighed by its prior. */
function meanLevels(model: GraphModel, byCause: readonly (readonly number[])[]): readonly number[] {
  const total = model.causes.reduce((sum, { prior }) => sum + prior, 0);
  return (byCause[0] ?? []).map((_, level) =>
    model.causes.reduce((sum, { prior }, cause) => sum + (prior / total) * (byCause[cause]?.[level] ?? 0), 0),
  );
}

/** Observations (indices) that the cause shows, directly or through a mechanism that it drives. */
export function shownBy(model: GraphModel, cause: number): number[] {
  const driven = new Set(
    model.mechanisms.flatMap((mechanism, index) =>
      mechanism.links.some((link) => link.cause === cause) ? [index] : [],
    ),
  );
  return model.observations.flatMap(({ links }, index) =>
    links.some(({ from }) => (from.kind === 'cause' ? from.index === cause : driven.has(from.index)))
      ? [index]
      : [],
  );
}

/** Total variation distance (0–1): the share of cases in which the answer would be another one. */
export function distance(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, level) => sum + Math.abs(value - (b[level] ?? 0)), 0) / 2;
}
