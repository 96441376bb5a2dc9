import type { OwnExperience } from '../../../src-core/contract/own-experience-view.ts';
import { sentences } from '../../messages/lists.ts';
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

/** What counts, and what does not. */
export function countedWords({ cases, closedSince, choice, isDemo }: OwnExperience): string {
  const counted =
    choice.mode === 'off'
      ? isDemo
        ? m.demoCasesWouldCount({ cases })
        : m.casesWouldCount({ cases })
      : isDemo
        ? m.demoCasesCount({ cases })
        : m.casesCount({ cases });
  const isSomeLeftOut = choice.mode === 'frozen' && closedSince > 0;
  return sentences([counted, isSomeLeftOut ? m.closedSinceThenDoNotCount({ closedSince }) : '']);
}
