import type { Guide } from '../../../src-core/contract/guide-view.ts';
import type { GuideBook } from '../../host/guide-book.ts';
import { chanceOfShowing } from '../../wording/strength-words.ts';
import { showingsOf } from './showings.ts';

/** What an observation says about one cause. */
export interface ObservationWeight {
  readonly cause: string;
  /** Chance (0–1) that the cause shows it. */
  readonly chance: number;
  /** Weight in decibans of finding it, and of not finding it, against nothing in the guide being behind it. */
  readonly present: number;
  readonly absent: number;
}

/**
 * The causes an observation speaks about, those it speaks for most first. Weights are 10·log10 of the ratio of the
 * chance with the cause at work (which adds to the leak) to the leak alone: a rule of thumb for one cause by itself;
 * in a case all findings and causes are weighed together.
 */
export function weightsOf(
  observation: Guide['observations'][number],
  book: GuideBook,
): readonly ObservationWeight[] {
  const leak = chanceOfShowing(observation.leak.strength, observation);
  return book.guide.causes
    .flatMap((cause) => {
      const showing = showingsOf(cause, book).find((one) => one.observation === observation.id);
      if (!showing) return [];
      const met = 1 - (1 - showing.chance) * (1 - leak);
      return [
        {
          cause: cause.id,
          chance: showing.chance,
          present: 10 * Math.log10(met / leak),
          absent: 10 * Math.log10((1 - met) / (1 - leak)),
        },
      ];
    })
    .sort((a, b) => b.chance - a.chance);
}
