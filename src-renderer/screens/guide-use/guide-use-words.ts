import type { GuideUse } from '../../../src-core/contract/guide-use-view.ts';
import { listed } from '../../messages/lists.ts';
import { percent } from '../../wording/format.ts';
import { m } from '../../messages/en/guide-use-words.ts';

/** "61 % to 84 %" as "61 to 84 %". */
export function betweenWords({ low, high }: { readonly low: number; readonly high: number }): string {
  return m.to({ replace: percent(low).replace(/ %$/, ''), percent: percent(high) });
}

/** Which cases were looked at, and of how many the odds were kept. */
export function whichCasesWords({ cases, isMore, isDemo, withOdds }: GuideUse): string {
  const which = isDemo
    ? m.theClosedCasesOfTheDemo({ cases })
    : isMore
      ? m.theNewestClosedCases({ cases })
      : m.allClosedCases({ cases });
  return withOdds === cases ? m.whichCases({ which }) : m.theOddsWereKeptOfOf({ which, withOdds });
}

/** In one sentence: whether what was said came true as often as it was said, as far as the counts can tell. */
export function overSaidWords(bins: GuideUse['calibration']): string {
  const over = bins.filter(({ said, high }) => said > high);
  const under = bins.filter(({ said, low }) => said < low);
  if (over.length === 0 && under.length === 0) return m.nothingHereSaysThatTheGuide();
  const said = (bins: GuideUse['calibration']) => listed(bins.map((one) => percent(one.said)));
  const tooSure = m.tooSureWhereItSaid({ over: said(over) });
  const tooCareful = m.tooCarefulWhereItSaid({ under: said(under) });
  if (over.length > 0 && under.length > 0) return m.theGuideWasBoth({ tooSure, tooCareful });
  return m.theGuideWas({ parts: over.length > 0 ? tooSure : tooCareful });
}

/** "2 checks of 9 with five answers or more never moved the list." Those that did least follow in the table. */
export function neverWords(
  never: number,
  enough: number,
  what: 'checks' | 'remedies',
  often: string,
  did: string,
): string {
  if (enough === 0) return m.noneOfTheHasYetToo({ what, often });
  if (never === 0) return m.ofWithEachAtLeastOnce({ enough, what, often, did });
  return m.ofWithNeverTheyComeFirst({ never, enough, what, often, did });
}
