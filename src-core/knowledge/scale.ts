import { z } from 'zod';

/**
 * The worded scale for the strength of a link, as probabilities.
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

const scaleWords = Object.keys(WORDED_SCALE) as [ScaleWord, ...ScaleWord[]];

/** A link strength: a word of the scale, or a probability strictly between 0 and 1. */
export const strengthSchema = z.union([z.enum(scaleWords), z.number().gt(0).lt(1)]);
export type Strength = z.infer<typeof strengthSchema>;

/** The probability (0–1) that a strength stands for. */
export function strengthProbability(strength: Strength): number {
  return typeof strength === 'number' ? strength : WORDED_SCALE[strength];
}
