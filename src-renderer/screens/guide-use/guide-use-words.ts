import type { GuideUse } from '../../../src-core/contract/guide-use-view.ts';
import { percent } from '../../wording/format.ts';

/** "61 % to 84 %" as "61 to 84 %". */
export function betweenWords({ low, high }: { readonly low: number; readonly high: number }): string {
  return `${percent(low).replace(/ %$/, '')} to ${percent(high)}`;
}

/** Which cases were looked at, and of how many the odds were kept. */
export function whichCasesWords({ cases, isMore, isDemo, withOdds }: GuideUse): string {
  const which = isDemo
    ? `The ${cases} closed cases of the demo shop`
    : isMore
      ? `The newest ${cases} closed cases`
      : cases === 1
        ? 'The one closed case'
        : `All ${cases} closed cases`;
  return withOdds === cases ? `${which}.` : `${which}; the odds were kept of ${withOdds} of them.`;
}

/** In one sentence: whether what was said came true as often as it was said, as far as the counts can tell. */
export function overSaidWords(bins: GuideUse['calibration']): string {
  const over = bins.filter(({ said, high }) => said > high);
  const under = bins.filter(({ said, low }) => said < low);
  if (over.length === 0 && under.length === 0)
    return 'Nothing here says that the guide is too sure or too careful: everywhere what it said lies within what came true.';
  const parts = [
    ...(over.length > 0
      ? [`too sure where it said ${over.map(({ said }) => percent(said)).join(', ')}`]
      : []),
    ...(under.length > 0
      ? [`too careful where it said ${under.map(({ said }) => percent(said)).join(', ')}`]
      : []),
  ];
  return `The guide was ${parts.join(', and ')}.`;
}

/** "2 checks of 9 with five answers or more never moved the list." Those that did least follow in the table. */
export function neverWords(
  never: number,
  enough: number,
  what: 'checks' | 'remedies',
  often: string,
  did: string,
): string {
  if (enough === 0)
    return `None of the ${what} has ${often} yet: too few to say. Those that did least come first.`;
  if (never === 0)
    return `Of ${enough} ${what} with ${often} each ${did} at least once. Those that did least come first.`;
  return `${never} of ${enough} ${what} with ${often} never ${did}. They come first.`;
}
