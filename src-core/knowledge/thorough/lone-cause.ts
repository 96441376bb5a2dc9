import type { GraphLink, GraphModel } from '../../inference/index.ts';

/** What is seen of one cause: for each observation (by index) its distribution over levels. */
export type Seen = readonly (readonly number[])[];

/**
 * What is seen while exactly one cause is at work, mechanisms and leaks included. Given a lone cause the mechanisms
 * are independent, so each observation's distribution is a product over its parents (noisy-MAX). What speaks of the cause
 * that accounts for a complaint speaks of the lone one; with none, it is as with a cause picked by the priors.
 *
 * @param cause Index of the cause at work, or null for none.
 */
export function seenWithOnly(model: GraphModel, cause: number | null): Seen {
  const going = model.mechanisms.map((mechanism) => {
    const link = mechanism.links.find((one) => one.cause === cause);
    return 1 - (1 - mechanism.leak) * (1 - (link?.probability ?? 0));
  });
  const atWork = ({ kind, index }: GraphLink['from']) =>
    kind === 'mechanism' ? (going[index] ?? 0) : index === cause ? 1 : 0;
  return model.observations.map(({ leak, links, accountLevels }) => {
    const atMost = cumulative(leak);
    const raise = (levels: readonly number[], chance: number) =>
      cumulative(levels).forEach((value, level) => {
        atMost[level] = (atMost[level] ?? 0) * (1 - chance + chance * value);
      });
    if (accountLevels)
      raise(cause === null ? meanLevels(model, accountLevels) : (accountLevels[cause] ?? [1]), 1);
    else
      for (const link of links) {
        const chance = atWork(link.from);
        if (chance > 0) raise(link.levels, chance);
      }
    return atMost.map((value, level) => Math.max(0, value - (atMost[level - 1] ?? 0)));
  });
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

function cumulative(distribution: readonly number[]): number[] {
  let sum = 0;
  return distribution.map((value) => (sum += value));
}
