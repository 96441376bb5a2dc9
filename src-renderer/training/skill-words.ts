import { m } from '../messages/en/training.ts';

/** How sure one is that somebody has a topic. */
export function knownWords(known: number, items: number): string {
  if (items === 0) return m.notTriedYet();
  if (known >= 0.85) return m.hasIt();
  if (known >= 0.6) return m.probablyHasIt();
  if (known >= 0.4) return 'open';
  return m.notYet();
}

/** "5 of 12 topics, somewhere between 3 and 7". */
export function countWords(
  { expected, low, high }: { readonly expected: number; readonly low: number; readonly high: number },
  of: number,
): string {
  const about = Math.round(expected);
  return low === high
    ? m.ofTopics({ about, of })
    : m.aboutOfTopicsMostLikelyBetween({ about, of, low, high });
}

export const DIFFICULTY_WORDS = { easy: m.easy(), middling: m.middling(), hard: m.hard() } as const;
