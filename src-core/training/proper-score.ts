/**
 * Brier's score of a stated probability, turned so that 100 is best: 100 (1 - (p - y)²). Proper: whoever believes q does best
 * on average by saying q. Brier, Monthly Weather Review 78 (1950) 1-3; Gneiting & Raftery, J. Am. Stat. Assoc. 102 (2007) 359-378.
 */
export function confidenceScore(stated: number, isRight: boolean): number {
  if (!(stated >= 0 && stated <= 1))
    throw new RangeError(`a probability lies between 0 and 1, not ${stated}`);
  return 100 * (1 - (stated - (isRight ? 1 : 0)) ** 2);
}
