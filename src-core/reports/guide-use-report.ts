import type { GuideUse } from '../contract/guide-use-view.ts';
import { REPORT_TABLES } from '../contract/report-choices.ts';
import { documentTexts } from '../words/en/documents.ts';
import type { Message } from '../words/message.ts';
import type { ReportDocument } from './report-document.ts';
import { minutesInWords, shareInWords } from './report-words.ts';

const { m } = documentTexts;
const TITLES = REPORT_TABLES['guide-use'];

/** How the guide did in a shop, as its author would want to know. Cases stand by number only. */
export function guideUseReport(use: GuideUse, guideVersion: string, footer: Message): ReportDocument {
  const { first, cure } = use;
  const between = ({
    share,
    low,
    high,
  }: {
    readonly share: number;
    readonly low: number;
    readonly high: number;
  }) => m.between({ share: shareInWords(share), low: shareInWords(low), high: shareInWords(high) });
  return {
    title: m.guideInUse(),
    subtitle: (use.isDemo ? m.closedCasesOfDemo : m.closedCases)({ count: use.cases, version: guideVersion }),
    facts: [
      [
        m.confirmedStoodFirst(),
        first === null ? m.notKnownNoOddsKept() : m.firstIn({ count: first.of, share: between(first) }),
      ],
      [
        m.fromOpeningToCure(),
        cure === null
          ? m.noCureConfirmed()
          : m.inTheMiddle({
              median: minutesInWords(cure.medianMinutes),
              low: minutesInWords(cure.lowMinutes),
              high: minutesInWords(cure.highMinutes),
            }),
      ],
    ],
    sections: [
      {
        heading: TITLES.ranks,
        table: {
          name: 'ranks',
          columns: [
            { key: 'rank', label: m.placeInTheList() },
            { key: 'cases', label: m.cases(), isFigure: true },
          ],
          rows: use.ranks.map(({ rank, cases }) => [rank ?? m.furtherDown(), cases]),
        },
      },
      {
        heading: TITLES.calibration,
        table: {
          name: 'calibration',
          columns: [
            { key: 'from', label: m.saidFrom(), isFigure: true, isShare: true },
            { key: 'to', label: m.to(), isFigure: true, isShare: true },
            { key: 'said', label: m.onAverage(), isFigure: true, isShare: true },
            { key: 'candidates', label: m.candidates(), isFigure: true },
            { key: 'confirmed', label: m.confirmed(), isFigure: true },
            { key: 'share', label: m.shareColumn(), isFigure: true, isShare: true },
            { key: 'low', label: m.atLeast(), isFigure: true, isShare: true },
            { key: 'high', label: m.atMost(), isFigure: true, isShare: true },
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
        ifEmpty: m.noOddsKept(),
      },
      {
        heading: TITLES.checks,
        table: {
          name: 'checks',
          columns: [
            { key: 'observation', label: m.id() },
            { key: 'label', label: m.check() },
            { key: 'minutes', label: m.takesMinutes(), isFigure: true },
            { key: 'answered', label: m.answered(), isFigure: true },
            { key: 'moved', label: m.movedTheList(), isFigure: true },
            { key: 'notTold', label: m.couldNotTell(), isFigure: true },
            { key: 'neverPays', label: m.neverPays() },
          ],
          rows: use.checks.map((one) => [
            one.observation,
            one.label,
            one.minutes,
            one.answered,
            one.moved,
            one.notTold,
            one.neverPays ? m.yes() : '',
          ]),
        },
        ifEmpty: m.noCheckAnswered(),
      },
      {
        heading: TITLES.remedies,
        table: {
          name: 'remedies',
          columns: [
            { key: 'remedy', label: m.id() },
            { key: 'label', label: m.remedy() },
            { key: 'done', label: m.done(), isFigure: true },
            { key: 'cured', label: m.cured(), isFigure: true },
            { key: 'share', label: m.shareColumn(), isFigure: true, isShare: true },
            { key: 'low', label: m.atLeast(), isFigure: true, isShare: true },
            { key: 'high', label: m.atMost(), isFigure: true, isShare: true },
            { key: 'neverCures', label: m.neverCures() },
          ],
          rows: use.remedies.map((one) => [
            one.remedy,
            one.label,
            one.of,
            one.count,
            one.share,
            one.low,
            one.high,
            one.neverCures ? m.yes() : '',
          ]),
        },
        ifEmpty: m.noRemedyCarriedOut(),
      },
      {
        heading: TITLES.causes,
        table: {
          name: 'causes',
          columns: [
            { key: 'label', label: m.namedByHand() },
            { key: 'count', label: m.cases(), isFigure: true },
            { key: 'cases', label: m.theirNumbers() },
          ],
          rows: use.namedByHand.map(({ label, cases }) => [
            label,
            cases.length,
            cases.map(({ number }) => number).join(' '),
          ]),
        },
        ifEmpty: m.noneOutsideGuide(),
      },
    ],
    footer,
  };
}
