/**
 * How strongly a finding speaks, in plain words, by its weight of evidence in decibans.
 * Steps after Jeffreys, Theory of Probability (1961), appendix B: 5, 10, 15 and 20 decibans are half powers of ten
 * of the likelihood ratio; below 1 deciban is about the smallest change a person can judge (Good, 1979).
 */
export function weightWords(decibans: number): string {
  const size = Math.abs(decibans);
  const side = decibans < 0 ? 'speaks against' : 'supports';
  if (size < 1) return 'makes no difference';
  if (size < 5) return `slightly ${side}`;
  if (size < 10) return `clearly ${side}`;
  if (size < 15) return `strongly ${side}`;
  if (size < 20) return `very strongly ${side}`;
  return decibans < 0 ? 'all but rules it out' : 'all but settles it';
}

/** A factor on the odds as a person reads it: "odds × 3", "odds ÷ 5". */
export function oddsWords(timesOdds: number): string {
  if (timesOdds >= 1) return `odds × ${short(timesOdds)}`;
  return `odds ÷ ${short(1 / timesOdds)}`;
}

function short(value: number): string {
  return value >= 10 || Number.isInteger(value) ? String(Math.round(value)) : value.toFixed(1);
}
