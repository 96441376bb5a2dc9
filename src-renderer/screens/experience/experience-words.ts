import type { OwnExperience } from '../../../src-core/contract/own-experience-view.ts';

type Row = OwnExperience['rows'][number];

/** "2.1 times as often": two figures that count. */
export function timesWords(times: number): string {
  return times >= 9.95 ? String(Math.round(times)) : String(Number(times.toPrecision(2)));
}

/** How sure it is that the shop differs from the guide. */
export function sureWords({ low, high }: Pick<Row, 'low' | 'high'>): string {
  if (low > 1) return 'More often than the guide says';
  if (high < 1) return 'Less often than the guide says';
  return 'Cannot be told from the guide yet';
}

/** What counts, in one sentence. */
export function countedWords({ cases, closedSince, choice, isDemo }: OwnExperience): string {
  const some = cases === 1 ? '1 closed case' : `${cases} closed cases`;
  const whose = isDemo ? ' of the demo shop' : '';
  const since =
    choice.mode === 'frozen' && closedSince > 0 ? `; ${closedSince} closed since then do not count` : '';
  const counting = choice.mode === 'off' ? 'would count' : cases === 1 ? 'counts' : 'count';
  return `${some}${whose} with a cause of the guide ${counting}${since}.`;
}
