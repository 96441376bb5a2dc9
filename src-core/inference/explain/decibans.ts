const DECIBANS_PER_NAT = 10 / Math.LN10;

/** Decibans of a natural log-odds or log likelihood ratio. */
export function decibansOf(naturalLog: number): number {
  return naturalLog * DECIBANS_PER_NAT;
}

/**
 * Weight of evidence in decibans: 10 log10(P(E | H) / P(E | not H)). Good, Michie & Timms, General Report on Tunny
 * (1945), section 21(g); Good, Probability and the Weighing of Evidence (1950). Positive when E speaks for H.
 *
 * Throws unless both are probabilities and not both 0.
 */
export function weightOfEvidence(probabilityIfTrue: number, probabilityIfFalse: number): number {
  for (const p of [probabilityIfTrue, probabilityIfFalse]) {
    if (!(p >= 0 && p <= 1))
      throw new RangeError(`weight of evidence needs probabilities from 0 to 1, got ${p}`);
  }
  if (probabilityIfTrue === 0 && probabilityIfFalse === 0) {
    throw new RangeError('weight of evidence needs a finding that can happen, got probability 0 either way');
  }
  return decibansOf(Math.log(probabilityIfTrue) - Math.log(probabilityIfFalse));
}

/** Probability after a weight of evidence: odds times 10^(decibans / 10). */
export function afterWeight(prior: number, decibans: number): number {
  if (!(prior >= 0 && prior <= 1))
    throw new RangeError(`prior must be a probability from 0 to 1, got ${prior}`);
  const logOdds = Math.log(prior) - Math.log1p(-prior) + decibans / DECIBANS_PER_NAT;
  return logOdds > 0 ? 1 / (1 + Math.exp(-logOdds)) : Math.exp(logOdds) / (1 + Math.exp(logOdds));
}
