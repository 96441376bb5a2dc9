import { z } from 'zod';
import { WORDED_SCALE, strengthProbability, type ScaleWord } from '../words/worded-scale.ts';

export { strengthProbability };

const scaleWords = Object.keys(WORDED_SCALE) as [ScaleWord, ...ScaleWord[]];

/** A link strength: a word of the scale, or a probability strictly between 0 and 1. */
export const strengthSchema = z.union([z.enum(scaleWords), z.number().gt(0).lt(1)]);
export type Strength = z.infer<typeof strengthSchema>;
