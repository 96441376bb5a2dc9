/** What is counted of a closed case. */
export interface CountedCase {
  /** When it was opened, ms since 1970. */
  readonly openedMs: number;
  /** Where it was: a printer, a material…; null where that is not known. */
  readonly where: string | null;
  readonly minutesLost: number;
  readonly gramsScrapped: number;
}

/** Some cases together. Whole cases are not kept: of a year there are a hundred thousand, read through once for each question. */
export interface Tally {
  /** When each was opened (ms since 1970), in the order in which they were given: as many as there are cases. */
  readonly times: readonly number[];
  readonly minutesLost: number;
  readonly gramsScrapped: number;
}

/** A tally that grows. */
export class GrowingTally implements Tally {
  readonly times: number[] = [];
  minutesLost = 0;
  gramsScrapped = 0;

  add({ openedMs, minutesLost, gramsScrapped }: CountedCase): void {
    this.times.push(openedMs);
    this.minutesLost += minutesLost;
    this.gramsScrapped += gramsScrapped;
  }
}

/** All of them together. */
export function tallyOfAll(cases: readonly CountedCase[]): Tally {
  const all = new GrowingTally();
  for (const one of cases) all.add(one);
  return all;
}

/** Cases by one thing that each has one of; those of which it is not known are left out. */
export function talliesBy<C extends CountedCase>(
  cases: readonly C[],
  keyOf: (one: C) => string | null,
): ReadonlyMap<string, Tally> {
  const tallies = new Map<string, GrowingTally>();
  for (const one of cases) {
    const key = keyOf(one);
    if (key !== null) tallyIn(tallies, key).add(one);
  }
  return tallies;
}

/** Cases by what they were; one that was several things counts in full for each, and once for one that is named twice. */
export function talliesByWhat<C extends CountedCase>(
  cases: readonly C[],
  whatOf: (one: C) => readonly string[],
): ReadonlyMap<string, Tally> {
  const tallies = new Map<string, GrowingTally>();
  for (const one of cases) forEachOnce(whatOf(one), (what) => tallyIn(tallies, what).add(one));
  return tallies;
}

/** The tally of a key, begun where there is none yet. */
export function tallyIn(tallies: Map<string, GrowingTally>, key: string): GrowingTally {
  let own = tallies.get(key);
  if (!own) tallies.set(key, (own = new GrowingTally()));
  return own;
}

/** Does something for each of a few texts, once for one that stands there twice. */
export function forEachOnce(texts: readonly string[], run: (text: string) => void): void {
  texts.forEach((text, at) => {
    if (at === 0 || texts.indexOf(text) === at) run(text);
  });
}
