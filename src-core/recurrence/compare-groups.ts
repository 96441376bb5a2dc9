import { binomialAtLeast } from '../statistics/binomial.ts';
import { adjustedChances } from '../statistics/false-discovery.ts';
import { fitRateSpread, updatedRate } from '../statistics/gamma-poisson.ts';
import { garwoodLimits } from '../statistics/garwood-limits.ts';
import { hypergeometricAtLeast } from '../statistics/hypergeometric.ts';
import { forEachOnce, tallyIn, type CountedCase, type GrowingTally, type Tally } from './tally.ts';

/** Of those taken as real, at most this share is expected to be chance. */
export const CHANCE_SHARE = 0.1;
/** Below this chance for a single look a row is worth watching. */
const ONE_LOOK = 0.05;

export type Standing = 'stands-out' | 'worth-watching' | 'could-be-chance';

export interface GroupRow {
  readonly where: string;
  readonly what: string;
  readonly count: number;
  /** Print hours of the group, or its cases where hours are not known by group. */
  readonly exposure: number;
  /** What the others' rate leads to expect in this group's exposure; its own count where there are no others. */
  readonly expectedCount: number;
  /** Exact chance (0–1) of this many or more here if all groups were alike. */
  readonly chance: number;
  /** The same for having looked at the whole table (Benjamini and Hochberg). */
  readonly adjustedChance: number;
  readonly standing: Standing;
  /** Per unit of exposure, with exact 95 % limits. */
  readonly rate: number;
  readonly rateLow: number;
  readonly rateHigh: number;
  readonly minutesLost: number;
  readonly gramsScrapped: number;
  /** When the cases were opened, ms since 1970. */
  readonly times: readonly number[];
}

export interface GroupComparison {
  /** Least likely to be chance first. */
  readonly rows: readonly GroupRow[];
  /** How many pairs of what and where were looked at, those without a case as well. */
  readonly looks: number;
  /** Of the rows that stand out, the most that are expected to be chance. */
  readonly expectedByChance: number;
}

/**
 * What comes back where. A group is held against the others, never against a rate that it has made itself.
 *
 * With `hours` (print hours by group): were all alike, the cases of a cause would be shared out by hours, a multinomial of
 * which one group's count is a binomial; with two groups that is the conditional test of two Poisson rates (Przyborowski and
 * Wilenski, Biometrika 31, 1940, 313-323). Without: which share of a group's cases had the cause, against the other groups'
 * (Fisher's exact test). Groups without hours are left out: nothing can be expected of them.
 *
 * Causes met once in all can come back nowhere, and are not counted among the looks. Where there is one group only, there is
 * nothing to hold it against: chance 1.
 *
 * `whatOf` says what a case was: its confirmed causes, or its habit; each counts once. Where groups have hours, callers add ANY_FAULT.
 */
export function compareGroups<C extends CountedCase>(
  cases: readonly C[],
  hours: ReadonlyMap<string, number> | null,
  whatOf: (one: C) => readonly string[],
): GroupComparison {
  const { counted, countsByWhere, byWhat } = talliesByPair(cases, hours, whatOf);
  const exposures = hours ?? countsByWhere;
  const groups = [...exposures].filter(([, exposure]) => exposure > 0);
  const total = groups.reduce((sum, [, exposure]) => sum + exposure, 0);

  const limitsOf = garwoodByCount();
  const rows: Omit<GroupRow, 'adjustedChance' | 'standing'>[] = [];
  for (const [what, ofWhat] of byWhat) {
    for (const [where, { times, minutesLost, gramsScrapped }] of ofWhat.byWhere) {
      const count = times.length;
      const exposure = exposures.get(where) ?? 0;
      const others = total - exposure;
      const limits = limitsOf(count);
      rows.push({
        where,
        what,
        count,
        exposure,
        expectedCount: others > 0 ? ((ofWhat.count - count) / others) * exposure : count,
        chance:
          hours === null
            ? hypergeometricAtLeast(count, exposure, ofWhat.count, counted)
            : binomialAtLeast(count, ofWhat.count, exposure / total),
        rate: count / exposure,
        rateLow: limits.low / exposure,
        rateHigh: limits.high / exposure,
        minutesLost,
        gramsScrapped,
        times,
      });
    }
  }
  const canComeBack = (what: string) => (byWhat.get(what)?.count ?? 0) >= 2;
  const compared = rows.filter(({ what }) => canComeBack(what));
  const looks = [...byWhat.keys()].filter(canComeBack).length * groups.length;
  const adjusted = adjustedChances(
    compared.map(({ chance }) => chance),
    looks,
  );
  const adjustedOf = new Map(compared.map((row, i) => [row, adjusted[i] ?? 1]));
  const judged = rows
    .map((row) => {
      const adjustedChance = adjustedOf.get(row) ?? 1;
      return { ...row, adjustedChance, standing: standingOf(row.count, row.chance, adjustedChance) };
    })
    .sort((a, b) => a.chance - b.chance || b.count - a.count || a.what.localeCompare(b.what));
  const real = judged.filter(({ standing }) => standing === 'stands-out').length;
  return { rows: judged, looks, expectedByChance: real * CHANCE_SHARE };
}

/** The cases of one cause, and those in each group. */
interface WhatTally {
  readonly count: number;
  readonly byWhere: ReadonlyMap<string, Tally>;
}

interface Pairs {
  /** How many cases there are in groups that can be compared, and in each of these. */
  readonly counted: number;
  readonly countsByWhere: ReadonlyMap<string, number>;
  readonly byWhat: ReadonlyMap<string, WhatTally>;
}

/** By what cases were and where they were. */
function talliesByPair<C extends CountedCase>(
  cases: readonly C[],
  hours: ReadonlyMap<string, number> | null,
  whatOf: (one: C) => readonly string[],
): Pairs {
  const places = new Map<string, { readonly isCompared: boolean; count: number }>();
  const byWhat = new Map<string, { count: number; readonly byWhere: Map<string, GrowingTally> }>();
  for (const one of cases) {
    const { where } = one;
    if (where === null) continue;
    let place = places.get(where);
    if (!place)
      places.set(where, (place = { isCompared: hours === null || (hours.get(where) ?? 0) > 0, count: 0 }));
    if (!place.isCompared) continue;
    place.count++;
    forEachOnce(whatOf(one), (what) => {
      let ofWhat = byWhat.get(what);
      if (!ofWhat) byWhat.set(what, (ofWhat = { count: 0, byWhere: new Map() }));
      ofWhat.count++;
      tallyIn(ofWhat.byWhere, where).add(one);
    });
  }
  const compared = [...places].filter(([, { isCompared }]) => isCompared);
  return {
    counted: compared.reduce((sum, [, { count }]) => sum + count, 0),
    countsByWhere: new Map(compared.map(([where, { count }]) => [where, count])),
    byWhat,
  };
}

/** Exact limits of a count; most rows share a few counts, so each is worked out once. */
function garwoodByCount(): (count: number) => ReturnType<typeof garwoodLimits> {
  const known = new Map<number, ReturnType<typeof garwoodLimits>>();
  return (count) => {
    const limits = known.get(count) ?? garwoodLimits(count);
    known.set(count, limits);
    return limits;
  };
}

/** A single case comes back nowhere, however rare it is. */
function standingOf(count: number, chance: number, adjustedChance: number): Standing {
  if (count < 2) return 'could-be-chance';
  if (adjustedChance <= CHANCE_SHARE) return 'stands-out';
  return chance < ONE_LOOK ? 'worth-watching' : 'could-be-chance';
}

/**
 * The likely rate of each group for one cause, with short records leaning on the others (empirical Bayes): what to expect
 * of it from now on. Groups without a case are among them; empty where there was none at all.
 */
export function leaningRates(
  counts: ReadonlyMap<string, number>,
  exposures: ReadonlyMap<string, number>,
): ReadonlyMap<string, number> {
  const units = [...exposures]
    .filter(([, exposure]) => exposure > 0)
    .map(([where, exposure]) => ({ where, exposure, count: counts.get(where) ?? 0 }));
  const spread = fitRateSpread(units);
  if (!spread) return new Map();
  return new Map(
    units.map((unit) => {
      const { shape, rate } = updatedRate(spread, unit);
      return [unit.where, shape / rate];
    }),
  );
}
