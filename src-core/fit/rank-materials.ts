import { FIT_VERDICTS, type FitVerdict } from '../contract/fit-verdicts.ts';
import type { MaterialFit } from '../contract/material-fit.ts';

const PRINTING_ORDER = ['easy', 'moderate', 'hard', 'expert'];

/**
 * Best first: by verdict, then by how many demands are not met, not known or met with limits, then the easier to print,
 * then the larger margin of heat. The order is total and does not depend on the order given but for equals.
 */
export function rankMaterials(fits: readonly MaterialFit[]): readonly MaterialFit[] {
  return fits.toSorted((a, b) => {
    for (const key of [verdictOrder, misses, unknowns, limits, printingOrder, lessHeat]) {
      const difference = key(a) - key(b);
      if (difference !== 0) return difference;
    }
    return 0;
  });
}

const verdictOrder = ({ verdict }: MaterialFit) => FIT_VERDICTS.indexOf(verdict);
const count = (verdict: FitVerdict) => (fit: MaterialFit) =>
  fit.judgements.filter((one) => one.verdict === verdict).length;
const misses = count('does-not-suit');
const unknowns = count('not-known');
const limits = count('suits-with-limits');

function printingOrder({ printing }: MaterialFit): number {
  const at = PRINTING_ORDER.findIndex((word) => printing?.startsWith(word));
  return at < 0 ? PRINTING_ORDER.length : at;
}

function lessHeat({ judgements }: MaterialFit): number {
  const margin = judgements.find(({ demand }) => demand === 'heat')?.margin;
  return margin?.kind === 'kelvin' ? -margin.low : 0;
}
