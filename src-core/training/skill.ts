import { knownAfter, numbersOf, type ItemKind } from './knowledge-tracing.ts';

/** One thing that says something of a trainee's skill in a topic. */
export interface Evidence {
  readonly topic: string;
  readonly kind: ItemKind;
  readonly isRight: boolean;
}

export interface TopicSkill {
  readonly topic: string;
  /** Chance that the trainee has it. */
  readonly known: number;
  /** Cases, votes and drills that it rests on. */
  readonly items: number;
}

/** What a trainee probably can, topic by topic, from all that was done, oldest first. */
export function skillsFrom(topics: readonly string[], evidence: readonly Evidence[]): TopicSkill[] {
  return topics.map((topic) => {
    const own = evidence.filter((one) => one.topic === topic);
    const known = own.reduce(
      (before, { isRight, kind }) => knownAfter(before, isRight, numbersOf(kind)),
      numbersOf('middling').prior,
    );
    return { topic, known, items: own.length };
  });
}

/** How many topics somebody has: the mean, and the narrowest whole numbers that hold with 90 %. */
export interface TopicCount {
  readonly expected: number;
  readonly low: number;
  readonly high: number;
}

/** Of independent chances (Poisson's binomial, summed exactly). Between 5 % and 95 %. */
export function countKnown(chances: readonly number[]): TopicCount {
  let distribution = [1];
  for (const chance of chances) {
    const next = Array.from({ length: distribution.length + 1 }, () => 0);
    distribution.forEach((mass, count) => {
      next[count] = (next[count] ?? 0) + mass * (1 - chance);
      next[count + 1] = (next[count + 1] ?? 0) + mass * chance;
    });
    distribution = next;
  }
  const quantile = (share: number) => {
    let sum = 0;
    const at = distribution.findIndex((mass) => (sum += mass) >= share - 1e-12);
    return at < 0 ? chances.length : at;
  };
  return {
    expected: chances.reduce((sum, chance) => sum + chance, 0),
    low: quantile(0.05),
    high: quantile(0.95),
  };
}

/**
 * The topic in which a case is expected to teach most: where it is likeliest that the trainee has it not. Of equal ones the
 * first of `order`, so that nobody is asked the same topic over and over while nothing is known.
 */
export function topicThatTeachesMost(skills: readonly TopicSkill[]): string | null {
  const ordered = skills.toSorted((a, b) => a.known - b.known || a.items - b.items);
  return ordered[0]?.topic ?? null;
}
