import type { ObservationWeight } from '../contract/guide-differential.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { levelsFromCauseAlone } from './levels-from-cause.ts';
import { chancesIn } from './showings.ts';

/**
 * The causes an observation speaks about, those that show it most often first. Weights are decibans, 10·log10 of the ratio of its
 * chance with the cause alone at work to its chance with nothing of the guide at work (Good, Probability and the Weighing
 * of Evidence, 1950): one cause by itself; in a case all findings and causes are weighed together.
 */
export function weightsOf(knowledge: Knowledge, observationId: string): readonly ObservationWeight[] {
  const index = knowledge.observationIndex.get(observationId);
  if (index === undefined) throw new RangeError(`the guide has no observation "${observationId}"`);
  const { graph, causeIndex } = knowledge;
  const absentUnder = (cause: number | null) => levelsFromCauseAlone(graph, cause)(index)[0] ?? 1;
  const missed = absentUnder(null);
  return [...chancesIn(knowledge)]
    .flatMap(([cause, shown]) => {
      const chance = shown.get(observationId);
      if (chance === undefined) return [];
      const absent = absentUnder(causeIndex.get(cause) ?? null);
      return [
        {
          cause,
          chance,
          present: 10 * Math.log10((1 - absent) / (1 - missed)),
          absent: 10 * Math.log10(absent / missed),
        },
      ];
    })
    .sort((a, b) => b.chance - a.chance);
}
