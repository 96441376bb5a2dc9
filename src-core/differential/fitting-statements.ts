import type { Knowledge } from '../knowledge/knowledge.ts';
import { levelsFromCauseAlone } from './levels-from-cause.ts';
import { chancesIn } from './showings.ts';

/** How much each cause counts, by id; only their proportions matter. */
export type CauseWeights = ReadonlyMap<string, number>;

/** Before a case is opened: each cause by its prior and by how often it shows what is complained of. */
export function weightsOfComplaints(knowledge: Knowledge, complaints: readonly string[]): CauseWeights {
  const shown = chancesIn(knowledge);
  return new Map(
    [...knowledge.causes.values()].map(({ id, prior }) => {
      const looks = shown.get(id);
      const fits = complaints.reduce((sum, complaint) => sum + (looks?.get(complaint) ?? 0), 0);
      return [id, prior.perHundredCases * fits];
    }),
  );
}

/**
 * The statements of the form, by id: those first that are most often true with one of the weighted causes alone at work,
 * Σ weight · P(statement | cause). An order for the eye; what a statement means for a case is worked out in the case.
 */
export function statementsByFit(knowledge: Knowledge, weights: CauseWeights): readonly string[] {
  const counted = [...weights].flatMap(([id, weight]) => {
    const at = knowledge.causeIndex.get(id);
    return at !== undefined && weight > 0 ? [{ at, weight }] : [];
  });
  return [...truthsIn(knowledge)]
    .map(([id, truths]) => ({
      id,
      fit: counted.reduce((sum, { at, weight }) => sum + weight * (truths[at] ?? 0), 0),
    }))
    .sort((a, b) => b.fit - a.fit)
    .map(({ id }) => id);
}

const kept = new WeakMap<Knowledge, ReadonlyMap<string, Float64Array>>();

/** Chance of each statement with each cause alone at work, by statement and the cause's index; worked out once for a guide. */
function truthsIn(knowledge: Knowledge): ReadonlyMap<string, Float64Array> {
  const known = kept.get(knowledge);
  if (known) return known;
  const { graph, observations, observationIndex } = knowledge;
  const under = graph.causes.map((_, cause) => levelsFromCauseAlone(graph, cause));
  const made = new Map(
    [...observations.values()]
      .filter(({ group }) => group !== undefined)
      .map(({ id }) => {
        const index = observationIndex.get(id) ?? -1;
        return [id, Float64Array.from(under, (levelsOf) => 1 - (levelsOf(index)[0] ?? 1))];
      }),
  );
  kept.set(knowledge, made);
  return made;
}
