import type { GuideUse } from '../contract/guide-use-view.ts';
import { REPORT_TABLES } from '../contract/report-choices.ts';
import type { ReportDocument } from './report-document.ts';
import { casesInWords, minutesInWords, shareInWords } from './report-words.ts';

const TITLES = REPORT_TABLES['guide-use'];

/** How the guide did in a shop, as its author would want to know. Cases stand by number only. */
export function guideUseReport(use: GuideUse, guideVersion: string, footer: string): ReportDocument {
  const { first, cure } = use;
  const between = ({
    share,
    low,
    high,
  }: {
    readonly share: number;
    readonly low: number;
    readonly high: number;
  }) => `${shareInWords(share)} (${shareInWords(low)} to ${shareInWords(high)})`;
  return {
    title: 'The guide in use',
    subtitle: `${casesInWords(use.cases)} closed${use.isDemo ? ' in the demo shop' : ''}, guide ${guideVersion}`,
    facts: [
      [
        'Confirmed cause stood first',
        first === null
          ? 'not known: of no case were the odds kept'
          : `${between(first)} of ${casesInWords(first.of)}`,
      ],
      [
        'From opening to cure',
        cure === null
          ? 'no cure was confirmed'
          : `${minutesInWords(cure.medianMinutes)} in the middle, half of them ${minutesInWords(cure.lowMinutes)} to ${minutesInWords(cure.highMinutes)}`,
      ],
    ],
    sections: [
      {
        heading: TITLES.ranks,
        table: {
          name: 'ranks',
          columns: [
            { key: 'rank', label: 'Place in the list' },
            { key: 'cases', label: 'Cases', isFigure: true },
          ],
          rows: use.ranks.map(({ rank, cases }) => [rank ?? 'further down', cases]),
        },
      },
      {
        heading: TITLES.calibration,
        table: {
          name: 'calibration',
          columns: [
            { key: 'from', label: 'Said, from', isFigure: true, isShare: true },
            { key: 'to', label: 'To', isFigure: true, isShare: true },
            { key: 'said', label: 'On average', isFigure: true, isShare: true },
            { key: 'candidates', label: 'Candidates', isFigure: true },
            { key: 'confirmed', label: 'Confirmed', isFigure: true },
            { key: 'share', label: 'Share', isFigure: true, isShare: true },
            { key: 'low', label: 'At least', isFigure: true, isShare: true },
            { key: 'high', label: 'At most', isFigure: true, isShare: true },
          ],
          rows: use.calibration.map((bin) => [
            bin.from,
            bin.to,
            bin.said,
            bin.of,
            bin.count,
            bin.share,
            bin.low,
            bin.high,
          ]),
        },
        ifEmpty: 'Of no case were the odds kept.',
      },
      {
        heading: TITLES.checks,
        table: {
          name: 'checks',
          columns: [
            { key: 'observation', label: 'Id' },
            { key: 'label', label: 'Check' },
            { key: 'minutes', label: 'Takes, min', isFigure: true },
            { key: 'answered', label: 'Answered', isFigure: true },
            { key: 'moved', label: 'Moved the list', isFigure: true },
            { key: 'notTold', label: 'Could not tell', isFigure: true },
            { key: 'neverPays', label: 'Never pays' },
          ],
          rows: use.checks.map((one) => [
            one.observation,
            one.label,
            one.minutes,
            one.answered,
            one.moved,
            one.notTold,
            one.neverPays ? 'yes' : '',
          ]),
        },
        ifEmpty: 'No check was answered while the odds were kept.',
      },
      {
        heading: TITLES.remedies,
        table: {
          name: 'remedies',
          columns: [
            { key: 'remedy', label: 'Id' },
            { key: 'label', label: 'Remedy' },
            { key: 'done', label: 'Done', isFigure: true },
            { key: 'cured', label: 'Cured', isFigure: true },
            { key: 'share', label: 'Share', isFigure: true, isShare: true },
            { key: 'low', label: 'At least', isFigure: true, isShare: true },
            { key: 'high', label: 'At most', isFigure: true, isShare: true },
            { key: 'neverCures', label: 'Never cures' },
          ],
          rows: use.remedies.map((one) => [
            one.remedy,
            one.label,
            one.of,
            one.count,
            one.share,
            one.low,
            one.high,
            one.neverCures ? 'yes' : '',
          ]),
        },
        ifEmpty: 'No remedy was carried out to the end.',
      },
      {
        heading: TITLES.causes,
        table: {
          name: 'causes',
          columns: [
            { key: 'label', label: 'Named by hand' },
            { key: 'count', label: 'Cases', isFigure: true },
            { key: 'cases', label: 'Their numbers' },
          ],
          rows: use.namedByHand.map(({ label, cases }) => [
            label,
            cases.length,
            cases.map(({ number }) => number).join(' '),
          ]),
        },
        ifEmpty: 'None: the guide had them all.',
      },
    ],
    footer,
  };
}
