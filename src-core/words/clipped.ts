/** As many letters of a text that was given are shown where a fault names it. */
const LONGEST_SHOWN = 80;

/** A text as a fault names it: one that ran over is long, and the rest of it tells nobody more. */
export function clipped(text: string): string {
  const letters = Array.from(text);
  return letters.length > LONGEST_SHOWN ? `${letters.slice(0, LONGEST_SHOWN).join('')}…` : text;
}
