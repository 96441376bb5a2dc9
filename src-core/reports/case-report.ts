import { inEnglish } from '../words/in-english.ts';
import type { CaseView } from '../contract/case-view.ts';
import type { Timeline } from '../contract/casebook-view.ts';
import { REPORT_TABLES } from '../contract/report-choices.ts';
import type { ReportDocument, ReportPicture } from './report-document.ts';
import { minutesInWords, shareInWords, type ReportWords } from './report-words.ts';

const MOST_CANDIDATES = 5;

/** One case on paper: what was wrong, what was known, every step with what was thought then, and how it ended. */
export function caseReport(
  view: CaseView,
  timeline: Timeline,
  pictures: readonly ReportPicture[],
  words: ReportWords,
  footer: string,
): ReportDocument {
  const { closing } = view;
  const hasInitials = timeline.steps.some(({ by }) => by !== null);
  const complaint = view.complaints
    .map(({ label, value }) => {
      const words = inEnglish(value);
      return words === 'Present' ? label : `${label}: ${words.toLowerCase()}`;
    })
    .join('; ');
  const last = view.trail.at(-1)?.at ?? view.openedAt;
  return {
    title: `Case ${view.number}`,
    subtitle: complaint,
    facts: [
      ['Printer', view.printer?.label ?? 'None named'],
      ['Spool', view.spool?.label ?? 'None named'],
      ['Profile', view.profile ?? 'None named'],
      ...(view.files.length > 0 ? ([['Files', view.files.join(', ')]] as const) : []),
      ...(view.tags.length > 0 ? ([['Tags', view.tags.join(', ')]] as const) : []),
      ['Opened', `${words.time(view.openedAt)}${view.openedBy ? ` by ${view.openedBy}` : ''}`],
      ['State', view.state === 'closed' ? `Closed ${words.time(last)}` : 'Still open'],
      ...(closing
        ? ([
            ['Cause', closing.causes.map(({ label }) => label).join('; ')],
            ['Habit behind it', closing.practice?.label ?? 'None named'],
            [
              'Lost',
              `${minutesInWords(closing.minutesLost)}, ${Math.round(closing.gramsScrapped)} g of filament`,
            ],
          ] as const)
        : []),
    ],
    sections: [
      ...(view.words ? [{ heading: 'In the operator’s words', paragraphs: [view.words] }] : []),
      ...(closing?.note ? [{ heading: 'Note at the end', paragraphs: [closing.note] }] : []),
      ...(closing?.practice
        ? [{ heading: 'What to do next time', paragraphs: [closing.practice.better] }]
        : []),
      ...(closing
        ? []
        : [
            {
              heading: 'Likeliest causes by now',
              paragraphs: view.candidates
                .slice(0, MOST_CANDIDATES)
                .map(({ label, probability }) => `${label}: ${shareInWords(probability)}`),
            },
          ]),
      {
        heading: REPORT_TABLES.case.steps,
        paragraphs: timeline.isSameKnowledge
          ? []
          : ['Likelihoods are those of today’s guide, which is not the guide of the day.'],
        table: {
          name: 'steps',
          columns: [
            { key: 'number', label: 'No.', isFigure: true },
            { key: 'at', label: 'When', isShort: true },
            { key: 'what', label: 'What' },
            ...(hasInitials ? [{ key: 'who', label: 'Who' }] : []),
            { key: 'likeliestCause', label: 'Likeliest cause then' },
            { key: 'probability', label: 'How likely', isShare: true },
          ],
          rows: timeline.steps.map(({ seq, at, text, isUndone, by, candidates }) => [
            seq,
            words.time(at),
            isUndone ? `${inEnglish(text)} (taken back)` : inEnglish(text),
            ...(hasInitials ? [by ?? ''] : []),
            candidates[0]?.label ?? '',
            candidates[0] ? Number(candidates[0].probability.toFixed(3)) : null,
          ]),
        },
      },
      {
        heading: REPORT_TABLES.case.conditions,
        table: {
          name: 'conditions',
          columns: [
            { key: 'condition', label: 'Circumstance' },
            { key: 'value', label: 'Value' },
            { key: 'because', label: 'How it is known' },
          ],
          rows: view.conditions.map(({ label, valueLabel, because }) => [
            label,
            valueLabel,
            because === null ? 'Said' : inEnglish(because),
          ]),
        },
        ifEmpty: 'None was known.',
      },
      ...(pictures.length > 0 ? [{ heading: 'Photos', pictures }] : []),
    ],
    footer,
  };
}
