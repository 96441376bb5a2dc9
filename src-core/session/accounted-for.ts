import type { GraphModel } from '../inference/index.ts';

/**
 * By hypothesis, the mean over the complaints of the probability that it accounts for each. That a hypothesis raised complaint c
 * is its link's chance against that of all links together, each counted with the probability of its hypothesis
 * (`probabilities`): exact with one complaint, close with several.
 */
export function accountedFor(
  model: GraphModel,
  complaints: readonly number[],
  probabilities: ArrayLike<number>,
): Float64Array {
  const accounted = new Float64Array(model.causes.length);
  for (const complaint of complaints) {
    const links = model.observations[complaint]?.links ?? [];
    const chances = links.map(({ from, levels }) => ({
      hypothesis: from.index,
      present: probabilities[from.index] ?? 0,
      raises: 1 - (levels[0] ?? 1),
    }));
    const silent = chances.reduce((product, { present, raises }) => product * (1 - present * raises), 1);
    for (const { hypothesis, present, raises } of chances) {
      const others = silent / (1 - present * raises);
      const raised = complaints.length === 1 ? 1 : raises / (1 - (1 - raises) * others);
      accounted[hypothesis] = (accounted[hypothesis] ?? 0) + (present * raised) / complaints.length;
    }
  }
  return accounted;
}
