import { strengthProbability } from '../../../src-core/contract/strength-words.ts';
import type { Guide } from '../../../src-core/contract/guide-view.ts';
import type { GuideBook } from '../../host/guide-book.ts';
import { chanceOfShowing, type LinkStrength } from '../../wording/strength-words.ts';

type Cause = Guide['causes'][number];

/** How an observation comes about under a cause. */
export interface Showing {
  readonly observation: string;
  /** Chance (0–1) that the cause brings it about at all, by itself and through its mechanisms. */
  readonly chance: number;
  /** The same level by level where it is graded. */
  readonly strength: LinkStrength;
  /** Mechanisms it goes through; empty where the cause shows it directly. */
  readonly through: readonly string[];
  readonly sources: readonly string[];
}

interface Path {
  readonly strength: LinkStrength;
  readonly through: string | null;
  readonly source: string;
}

/**
 * What a cause looks like: its direct signs and those of the mechanisms it sets going, likeliest first. Several ways to
 * the same sign act independently (noisy-OR): the chance that none of them shows it is the product of their misses.
 */
export function showingsOf(cause: Cause, book: GuideBook): readonly Showing[] {
  const paths = new Map<string, Path[]>();
  const add = (observation: string, path: Path) =>
    paths.set(observation, [...(paths.get(observation) ?? []), path]);
  for (const { to, strength, source } of cause.shows) add(to, { strength, through: null, source });
  for (const drive of cause.drives) {
    if (typeof drive.strength === 'object') continue;
    const driven = strengthProbability(drive.strength);
    for (const { to, strength, source } of book.mechanisms.get(drive.to)?.shows ?? []) {
      add(to, { strength: scaled(strength, driven), through: drive.to, source });
    }
  }
  return [...paths]
    .map(([observation, ways]) => {
      const entry = book.observations.get(observation);
      const strength = ways.map((way) => way.strength).reduce(joined);
      return {
        observation,
        strength,
        chance: chanceOfShowing(strength, entry),
        through: [...new Set(ways.flatMap((way) => (way.through === null ? [] : [way.through])))],
        sources: [...new Set(ways.map((way) => way.source))],
      };
    })
    .sort((a, b) => b.chance - a.chance);
}

function scaled(strength: LinkStrength, by: number): LinkStrength {
  if (typeof strength !== 'object') return strengthProbability(strength) * by;
  return Object.fromEntries(
    Object.entries(strength).map(([level, each]) => [level, strengthProbability(each) * by]),
  );
}

function joined(a: LinkStrength, b: LinkStrength): LinkStrength {
  const either = (p: number, q: number) => 1 - (1 - p) * (1 - q);
  if (typeof a !== 'object' || typeof b !== 'object') {
    if (typeof a === 'object' || typeof b === 'object') return typeof a === 'object' ? a : b;
    return either(strengthProbability(a), strengthProbability(b));
  }
  const levels = new Set([...Object.keys(a), ...Object.keys(b)]);
  return Object.fromEntries(
    [...levels].map((level) => [
      level,
      either(strengthProbability(a[level] ?? 0), strengthProbability(b[level] ?? 0)),
    ]),
  );
}
