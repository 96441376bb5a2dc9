/**
 * The worded scale for the strength of a link, as probabilities. Without schemas, so that screens can show the figure
 * behind a word.
 *
 * Anchors: Renooij & Witteman, Int. J. Approx. Reasoning 22 (1999) 169-194 (85, 75, 50, 25, 15 %)
 * and Kent, Words of estimative probability (1964) (93, 7 %). The ends are 0.99 and 0.02 so that no
 * answer ever rules a cause out. The frequency words are our own.
 */
export const WORDED_SCALE = {
  always: 0.99,
  'nearly always': 0.93,
  usually: 0.85,
  often: 0.75,
  'about half': 0.5,
  sometimes: 0.25,
  seldom: 0.15,
  rarely: 0.07,
  'hardly ever': 0.02,
} as const;

export type ScaleWord = keyof typeof WORDED_SCALE;

/** The probability (0–1) that a strength stands for: a word of the scale, or the figure itself. */
export function strengthProbability(strength: ScaleWord | number): number {
  return typeof strength === 'number' ? strength : WORDED_SCALE[strength];
}

/**
 * The chance (0–1) that a link shows its observation at all. Grades are "at least so much", so the greatest counts;
 * the bands of a measure exclude each other, so they add up.
 */
export function chanceOfShowing(
  strength: ScaleWord | number | Readonly<Record<string, ScaleWord | number>>,
  isMeasured: boolean,
): number {
  if (typeof strength !== 'object') return strengthProbability(strength);
  const chances = Object.values(strength).map(strengthProbability);
  return isMeasured
    ? Math.min(
        1,
        chances.reduce((sum, one) => sum + one, 0),
      )
    : Math.max(0, ...chances);
}
