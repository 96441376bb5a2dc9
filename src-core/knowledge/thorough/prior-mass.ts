import type { KnowledgeFault } from '../fault.ts';
import type { ThoroughInput } from './thorough-input.ts';

/** Causes at work in an opened case, on the mean: seldom none, seldom two. */
export const PLAUSIBLE_CAUSES_PER_CASE = { least: 0.8, most: 1.8 } as const;

/** Priors that do not add up to a plausible complaint rate; named at the cause with the largest prior. */
export function priorMass({ lists }: ThoroughInput): KnowledgeFault[] {
  const sum = lists.causes.reduce((total, { entry }) => total + entry.prior.perHundredCases, 0) / 100;
  const { least, most } = PLAUSIBLE_CAUSES_PER_CASE;
  const [largest] = lists.causes.toSorted(
    (a, b) => b.entry.prior.perHundredCases - a.entry.prior.perHundredCases,
  );
  if (!largest || (sum >= least && sum <= most)) return [];
  return [
    {
      code: 'prior-mass',
      ...largest.at('prior'),
      message: `the priors of all causes add up to ${sum.toFixed(2)} causes a case, outside ${least} to ${most}`,
      remedy: `${sum < least ? 'raise' : 'lower'} the priors ("${largest.entry.id}" has the largest), or add or remove causes`,
    },
  ];
}
