/** How sure one is that somebody has a topic. */
export function knownWords(known: number, items: number): string {
  if (items === 0) return 'not tried yet';
  if (known >= 0.85) return 'has it';
  if (known >= 0.6) return 'probably has it';
  if (known >= 0.4) return 'open';
  return 'not yet';
}

/** "5 of 12 topics, somewhere between 3 and 7". */
export function countWords(
  { expected, low, high }: { readonly expected: number; readonly low: number; readonly high: number },
  of: number,
): string {
  const about = Math.round(expected);
  return low === high
    ? `${about} of ${of} topics`
    : `about ${about} of ${of} topics, most likely between ${low} and ${high}`;
}

export const DIFFICULTY_WORDS = { easy: 'Easy', middling: 'Middling', hard: 'Hard' } as const;
