/** Weights before and after drying, gram, each read from the same scale. */
export interface DryingWeights {
  readonly beforeG: number;
  readonly afterG: number;
  /** Weight of the empty spool, gram; 0 for a loose coil. */
  readonly spoolBodyG: number;
  /** Weighings are right to ± this, gram: the scale's step or its repeatability, whichever is more. */
  readonly scaleErrorG: number;
  /** Water that the spool body itself lost, gram; a cardboard spool gives off several gram. */
  readonly spoolBodyLossG?: number;
}

/** What weighing says about the water that was in the filament. Mass fractions of the dried filament. */
export interface LossOnDrying {
  readonly lost: number;
  /** The true loss lies within ± this, worst case of both weighings. */
  readonly plusMinus: number;
  readonly low: number;
  readonly high: number;
  /** False when the loss is smaller than its error: the scale is too coarse to tell. */
  readonly isTold: boolean;
}

/**
 * Water lost by weighing, drying and weighing again.
 *
 * It counts what came out, not what stayed in. Both weighings can be off by the scale's error in opposite senses, so the
 * bound is twice it; the doubt of the dry weight adds a second-order part. A RangeError names a weight that cannot be.
 */
export function lossOnDrying(weights: DryingWeights): LossOnDrying {
  const { beforeG, afterG, spoolBodyG, scaleErrorG, spoolBodyLossG = 0 } = weights;
  for (const [what, gram] of Object.entries({ beforeG, afterG, spoolBodyG, scaleErrorG, spoolBodyLossG })) {
    if (!(gram >= 0 && Number.isFinite(gram))) {
      throw new RangeError(`${what} is a number of gram from 0 up, not ${gram}`);
    }
  }
  const dryG = afterG - (spoolBodyG - spoolBodyLossG);
  if (!(dryG > scaleErrorG)) {
    throw new RangeError(
      `the spool body (${spoolBodyG} g) leaves no filament in ${afterG} g; weigh the empty spool again`,
    );
  }
  const lossG = beforeG - afterG - spoolBodyLossG;
  const lost = lossG / dryG;
  const plusMinus = (2 * scaleErrorG + Math.abs(lost) * scaleErrorG) / dryG;
  return {
    lost,
    plusMinus,
    low: Math.max(0, lost - plusMinus),
    high: Math.max(0, lost + plusMinus),
    isTold: lost > plusMinus,
  };
}
