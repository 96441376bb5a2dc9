import type { OwnExperience } from '../../../src-core/contract/own-experience-view.ts';
import { m } from '../../messages/en/experience-words.ts';

type Row = OwnExperience['rows'][number];

/** "2.1 times as often": two figures that count. */
export function timesWords(times: number): string {
  return times >= 9.95 ? String(Math.round(times)) : String(Number(times.toPrecision(2)));
}

/** How sure it is that the shop differs from the guide. */
export function sureWords({ low, high }: Pick<Row, 'low' | 'high'>): string {
  if (low > 1) return m.moreOftenThanTheGuideSays();
  if (high < 1) return m.lessOftenThanTheGuideSays();
  return m.cannotBeToldFromTheGuide();
}

/** What counts, in one sentence. */
export function countedWords({ cases, closedSince, choice, isDemo }: OwnExperience): string {
  const some = m.closedCases({ cases });
  const whose = isDemo ? m.ofTheDemoShop() : '';
  const since =
    choice.mode === 'frozen' && closedSince > 0 ? m.closedSinceThenDoNotCount({ closedSince }) : '';
  const counting = choice.mode === 'off' ? m.wouldCount() : m.count({ cases });
  return m.withACauseOfTheGuide({ some, whose, counting, since });
}
