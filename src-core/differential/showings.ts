import type { Showing } from '../contract/guide-differential.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Cause, LinkStrength } from '../knowledge/schema.ts';
import { chanceOfShowing, strengthProbability } from '../words/worded-scale.ts';

/** What showings are read from. */
type Entries = Pick<Knowledge, 'causes' | 'mechanisms' | 'observations'>;

interface Path {
  readonly strength: LinkStrength;
  readonly through: string | null;
  readonly source: string;
}

/**
 * What a cause looks like: its direct signs and those of the mechanisms it sets going, likeliest first. Several ways to
 * the same sign act independently (noisy-OR; Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, 4.3.2): the
 * chance that none of them shows it is the product of their misses. Without leaks: what only this cause adds.
 */
export function showingsOf(cause: Cause, entries: Entries): readonly Showing[] {
  const paths = new Map<string, Path[]>();
  const add = (observation: string, path: Path) =>
    paths.set(observation, [...(paths.get(observation) ?? []), path]);
  for (const { to, strength, source } of cause.shows) add(to, { strength, through: null, source });
  for (const drive of cause.drives) {
    if (typeof drive.strength === 'object') continue;
    const driven = strengthProbability(drive.strength);
    for (const { to, strength, source } of entries.mechanisms.get(drive.to)?.shows ?? []) {
      add(to, { strength: scaled(strength, driven), through: drive.to, source });
    }
  }
  return [...paths]
    .map(([observation, ways]) => {
      const isMeasured = entries.observations.get(observation)?.measure !== undefined;
      const strength = ways.map((way) => way.strength).reduce(joined);
      return {
        observation,
        strength,
        // From the ways, not from the joined strength: the bands of a measure exclude each other.
        chance: 1 - ways.reduce((miss, way) => miss * (1 - chanceOfShowing(way.strength, isMeasured)), 1),
        through: [...new Set(ways.flatMap((way) => (way.through === null ? [] : [way.through])))],
        sources: [...new Set(ways.map((way) => way.source))],
      };
    })
    .sort((a, b) => b.chance - a.chance);
}

/** Chance (0 to 1) that a cause shows an observation, by cause and observation; what it does not show is left out. */
export type Chances = ReadonlyMap<string, ReadonlyMap<string, number>>;

const kept = new WeakMap<Entries, Chances>();

/** What every cause shows; worked out once for a guide. */
export function chancesIn(entries: Entries): Chances {
  const known = kept.get(entries);
  if (known) return known;
  const made = new Map(
    [...entries.causes.values()].map((cause) => [
      cause.id,
      new Map(showingsOf(cause, entries).map((one) => [one.observation, one.chance])),
    ]),
  );
  kept.set(entries, made);
  return made;
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
