import { binomialAtLeast } from '../statistics/binomial.ts';
import { adjustedChances } from '../statistics/false-discovery.ts';
import { fitRateSpread, updatedRate } from '../statistics/gamma-poisson.ts';
import { garwoodLimits } from '../statistics/garwood-limits.ts';
import { hypergeometricAtLeast } from '../statistics/hypergeometric.ts';

/** Of those taken as real, at most this share is expected to be chance. */
export const CHANCE_SHARE = 0.1;
/** Below this chance for a single look a row is worth watching. */
const ONE_LOOK = 0.05;

/** A closed case as it is counted: where it was (a printer, a material…; null where not known) and what it was. */
export interface CountedCase {
  readonly openedMs: number;
  readonly where: string | null;
  readonly minutesLost: number;
  readonly gramsScrapped: number;
}

export type Standing = 'stands-out' | 'worth-watching' | 'could-be-chance';

export interface GroupRow<C extends CountedCase = CountedCase> {
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
  readonly cases: readonly C[];
}

export interface GroupComparison<C extends CountedCase = CountedCase> {
  /** Least likely to be chance first. */
  readonly rows: readonly GroupRow<C>[];
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
): GroupComparison<C> {
  const counted = cases.filter(
    ({ where }) => where !== null && (hours === null || (hours.get(where) ?? 0) > 0),
  );
  const exposures = hours ?? countsByWhere(counted);
  const groups = [...exposures].filter(([, exposure]) => exposure > 0);
  const total = groups.reduce((sum, [, exposure]) => sum + exposure, 0);
  const byWhat = talliesByWhat(counted, whatOf);

  const limitsOf = garwoodByCount();
  const rows: Omit<GroupRow<C>, 'adjustedChance' | 'standing'>[] = [];
  for (const [what, ofWhat] of byWhat) {
    for (const [where, { cases: own, minutesLost, gramsScrapped }] of ofWhat.byWhere) {
      const exposure = exposures.get(where) ?? 0;
      const others = total - exposure;
      const limits = limitsOf(own.length);
      rows.push({
        where,
        what,
        count: own.length,
        exposure,
        expectedCount: others > 0 ? ((ofWhat.count - own.length) / others) * exposure : own.length,
        chance:
          hours === null
            ? hypergeometricAtLeast(own.length, exposure, ofWhat.count, counted.length)
            : binomialAtLeast(own.length, ofWhat.count, exposure / total),
        rate: own.length / exposure,
        rateLow: limits.low / exposure,
        rateHigh: limits.high / exposure,
        minutesLost,
        gramsScrapped,
        cases: own,
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

/** The cases of one cause in one group, and what was lost to them. */
interface Tally<C> {
  readonly cases: C[];
  minutesLost: number;
  gramsScrapped: number;
}

interface WhatTally<C> {
  count: number;
  readonly byWhere: Map<string, Tally<C>>;
}

/** By what cases were and where they were, in one pass: of a year there are a hundred thousand. Each counts as in {@link casesByWhat}. */
function talliesByWhat<C extends CountedCase>(
  cases: readonly C[],
  whatOf: (one: C) => readonly string[],
): ReadonlyMap<string, WhatTally<C>> {
  const tallies = new Map<string, WhatTally<C>>();
  for (const one of cases) {
    const all = whatOf(one);
    const where = one.where ?? '';
    for (let at = 0; at < all.length; at++) {
      const what = all[at] ?? '';
      if (all.indexOf(what) !== at) continue;
      let ofWhat = tallies.get(what);
      if (!ofWhat) tallies.set(what, (ofWhat = { count: 0, byWhere: new Map() }));
      ofWhat.count++;
      let tally = ofWhat.byWhere.get(where);
      if (!tally) ofWhat.byWhere.set(where, (tally = { cases: [], minutesLost: 0, gramsScrapped: 0 }));
      tally.cases.push(one);
      tally.minutesLost += one.minutesLost;
      tally.gramsScrapped += one.gramsScrapped;
    }
  }
  return tallies;
}

function countsByWhere(cases: readonly CountedCase[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { where } of cases) counts.set(where ?? '', (counts.get(where ?? '') ?? 0) + 1);
  return counts;
}

/** Cases by what they were; one that was several things counts in full for each, and once for one that is named twice. */
export function casesByWhat<C>(
  cases: readonly C[],
  whatOf: (one: C) => readonly string[],
): ReadonlyMap<string, readonly C[]> {
  const groups = new Map<string, C[]>();
  for (const one of cases) {
    const all = whatOf(one);
    for (let at = 0; at < all.length; at++) {
      const what = all[at] ?? '';
      if (all.indexOf(what) !== at) continue;
      const own = groups.get(what);
      if (own) own.push(one);
      else groups.set(what, [one]);
    }
  }
  return groups;
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
