import { fixed } from '../messages/figures.ts';
import { m } from '../messages/en/chance-words.ts';

/**
 * A chance that something happened by accident, with as much precision as helps: "46 %", "3.1 %", "0.02 %",
 * "below 0.01 %". Never "0 %" for what is not impossible.
 */
export function chanceWords(probability: number): string {
  const percent = probability * 100;
  if (percent >= 99.5) return probability >= 1 ? '100\u00a0%' : m.above99();
  if (percent >= 9.95) return `${Math.round(percent)}\u00a0%`;
  if (percent >= 0.995) return `${fixed(percent, 1)}\u00a0%`;
  if (percent >= 0.01) return `${fixed(percent, 2)}\u00a0%`;
  return m.below001();
}

/** An expected count: one decimal below ten, two below one, so that small ones do not read as nothing. */
export function expectedWords(count: number): string {
  if (count >= 10) return String(Math.round(count));
  if (count === 0) return '0';
  return count >= 1 ? fixed(count, 1) : count >= 0.01 ? fixed(count, 2) : m.below001InSentence();
}
