import { seededRandom } from '../training/seeded-random.ts';

export interface RankCorrelation {
  /** Spearman's coefficient, -1 to 1: whether larger goes with larger. */
  readonly coefficient: number;
  /** Chance (0–1) of a coefficient so far from 0, either way, if the two had nothing to do with each other. */
  readonly chance: number;
  /** Every order was looked at; otherwise many drawn at random. */
  readonly isExact: boolean;
}

/** Up to so many pairs every order is looked at: 362,880 of nine. */
const EVERY_ORDER = 9;
/** Orders that are drawn beyond that. */
const DRAWN = 20_000;
const SEED = 1904;
/** Coefficients closer than this are the same, rounded differently. */
const SAME = 1e-9;

/**
 * Spearman's rank correlation (Am. J. Psychol. 15, 1904, 72-101) with its chance by permutation: nothing is supposed of how the
 * values are spread, so clusters do no harm. Ties have the mean of their places. Exact up to nine pairs; beyond, orders are
 * drawn and the chance is (1 + as far) / (1 + drawn), which is never too small (Phipson and Smyth, Stat. Appl. Genet. Mol. Biol. 9,
 * 2010, 39); the same for the same values. Null for fewer than three pairs, or where one side never changes.
 */
export function rankCorrelation(pairs: readonly (readonly [number, number])[]): RankCorrelation | null {
  const count = pairs.length;
  if (count < 3) return null;
  const first = centredRanks(pairs.map(([one]) => one));
  const second = centredRanks(pairs.map(([, other]) => other));
  const scale = Math.sqrt(product(first, first) * product(second, second));
  if (!(scale > 0)) return null;
  const coefficient = product(first, second) / scale;
  const isAsFar = (order: readonly number[]) =>
    Math.abs(product(first, order) / scale) >= Math.abs(coefficient) - SAME;
  if (count <= EVERY_ORDER) {
    let [all, far] = [0, 0];
    everyOrder(second, (order) => {
      all++;
      if (isAsFar(order)) far++;
    });
    return { coefficient, chance: far / all, isExact: true };
  }
  const random = seededRandom(SEED);
  const order = [...second];
  let far = 0;
  for (let draw = 0; draw < DRAWN; draw++) {
    shuffle(order, random);
    if (isAsFar(order)) far++;
  }
  return { coefficient, chance: (1 + far) / (1 + DRAWN), isExact: false };
}

/** Places from the smallest up, ties at the mean of theirs, less the mean of all. */
function centredRanks(values: readonly number[]): number[] {
  const middle = (values.length + 1) / 2;
  return values.map((value) => {
    const below = values.filter((one) => one < value).length;
    const alike = values.filter((one) => one === value).length;
    return below + (alike + 1) / 2 - middle;
  });
}

function product(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, one, i) => sum + one * (b[i] ?? 0), 0);
}

/** Every order of some values, one swap from the one before (Heap, Computer J. 6, 1963, 293-298). */
function everyOrder(values: readonly number[], look: (order: readonly number[]) => void): void {
  const order = [...values];
  const turns = order.map(() => 0);
  look(order);
  for (let at = 0; at < order.length;) {
    const turn = turns[at] ?? 0;
    if (turn >= at) {
      turns[at] = 0;
      at++;
      continue;
    }
    swap(order, at % 2 === 0 ? 0 : turn, at);
    look(order);
    turns[at] = turn + 1;
    at = 0;
  }
}

/** Fisher and Yates. */
function shuffle(order: number[], random: () => number): void {
  for (let last = order.length - 1; last > 0; last--) swap(order, Math.floor(random() * (last + 1)), last);
}

function swap(order: number[], a: number, b: number): void {
  [order[a], order[b]] = [order[b] ?? 0, order[a] ?? 0];
}
