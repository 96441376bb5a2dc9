import type { GuideBook } from '../../host/guide-book.ts';
import { chanceOfShowing } from '../../wording/strength-words.ts';
import { showingsOf } from './showings.ts';

/** A check on which two causes differ. */
export interface TellingCheck {
  readonly observation: string;
  readonly minutes: number;
  /** Chance (0–1) that it is met under the cause of the sheet and under its rival. */
  readonly here: number;
  readonly there: number;
}

export interface Rival {
  readonly cause: string;
  /** How much of what they look like is the same, 0–1: what both show over what either shows. */
  readonly likeness: number;
  readonly checks: readonly TellingCheck[];
}

const MOST_RIVALS = 4;
const CHECKS_EACH = 3;
/** Less in common than this makes no rival. */
const LEAST_LIKENESS = 0.05;
/** A smaller difference tells nothing apart at the bench. */
const LEAST_DIFFERENCE = 0.25;

/**
 * The causes that look most like this one, and the checks that tell them apart. Likeness is the weighted Jaccard index
 * of what they show: the sum of the smaller chances over the sum of the larger. A check tells more the further its
 * chances lie apart, and is worth less the longer it takes (by the square root of its minutes).
 */
export function rivalsOf(causeId: string, book: GuideBook): readonly Rival[] {
  const own = looksOf(causeId, book);
  return book.guide.causes
    .filter((one) => one.id !== causeId && one.showsAnyComplaint === undefined)
    .map((one) => ({ cause: one.id, other: looksOf(one.id, book) }))
    .map(({ cause, other }) => ({ cause, other, likeness: likenessOf(own, other) }))
    .filter(({ likeness }) => likeness >= LEAST_LIKENESS)
    .sort((a, b) => b.likeness - a.likeness)
    .slice(0, MOST_RIVALS)
    .map(({ cause, other, likeness }) => ({ cause, likeness, checks: tellingChecks(own, other, book) }));
}

type Looks = ReadonlyMap<string, number>;

function looksOf(causeId: string, book: GuideBook): Looks {
  const cause = book.causes.get(causeId);
  return new Map((cause ? showingsOf(cause, book) : []).map((one) => [one.observation, one.chance]));
}

function likenessOf(a: Looks, b: Looks): number {
  let both = 0;
  let either = 0;
  for (const id of new Set([...a.keys(), ...b.keys()])) {
    both += Math.min(a.get(id) ?? 0, b.get(id) ?? 0);
    either += Math.max(a.get(id) ?? 0, b.get(id) ?? 0);
  }
  return either === 0 ? 0 : both / either;
}

function tellingChecks(own: Looks, other: Looks, book: GuideBook): readonly TellingCheck[] {
  return [...new Set([...own.keys(), ...other.keys()])]
    .flatMap((id) => {
      const observation = book.observations.get(id);
      if (!observation) return [];
      // What is met although nothing in the guide is behind it is met under both.
      const leak = chanceOfShowing(observation.leak.strength, observation);
      const met = (looks: Looks) => 1 - (1 - (looks.get(id) ?? 0)) * (1 - leak);
      return [{ observation: id, minutes: observation.check.minutes, here: met(own), there: met(other) }];
    })
    .filter(({ here, there }) => Math.abs(here - there) >= LEAST_DIFFERENCE)
    .sort((a, b) => worth(b) - worth(a))
    .slice(0, CHECKS_EACH);
}

function worth({ here, there, minutes }: TellingCheck): number {
  return Math.abs(here - there) / Math.sqrt(minutes);
}
