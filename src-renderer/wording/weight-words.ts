import { fixed } from '../messages/figures.ts';
import { m } from '../messages/en/weight-words.ts';

/**
 * How strongly a finding speaks, in plain words, by its weight of evidence in decibans.
 * Steps after Jeffreys, Theory of Probability (1961), appendix B: 5, 10, 15 and 20 decibans are half powers of ten
 * of the likelihood ratio; below 1 deciban is about the smallest change a person can judge (Good, 1979).
 */
export function weightWords(decibans: number): string {
  const size = Math.abs(decibans);
  const side = decibans < 0 ? m.speaksAgainst() : m.supports();
  if (size < 1) return m.makesNoDifference();
  if (size < 5) return m.slightly({ side });
  if (size < 10) return m.clearly({ side });
  if (size < 15) return m.strongly({ side });
  if (size < 20) return m.veryStrongly({ side });
  return decibans < 0 ? m.allButRulesItOut() : m.allButSettlesIt();
}

/** A factor on the odds as a person reads it: "odds × 3", "odds ÷ 5". */
export function oddsWords(timesOdds: number): string {
  if (timesOdds >= 1) return m.odds({ short: short(timesOdds) });
  return m.oddsWithShort({ short: short(1 / timesOdds) });
}

/** The same under a heading that says what it is of: "× 3", "÷ 5". */
export function timesWords(timesOdds: number): string {
  return timesOdds >= 1 ? m.times({ short: short(timesOdds) }) : m.parted({ short: short(1 / timesOdds) });
}

function short(value: number): string {
  return value >= 10 || Number.isInteger(value) ? String(Math.round(value)) : fixed(value, 1);
}
