import type { CaseView } from '../contract/case-view.ts';
import type { Timeline } from '../contract/casebook-view.ts';
import { REPORT_TABLES } from '../contract/report-choices.ts';
import { documentTexts } from '../words/en/documents.ts';
import { valueTexts } from '../words/en/values.ts';
import { inSentence } from '../words/in-sentence.ts';
import type { Message } from '../words/message.ts';
import type { ReportDocument, ReportPicture } from './report-document.ts';
import { minutesInWords, shareInWords, type ReportWords } from './report-words.ts';

const { m } = documentTexts;
const MOST_CANDIDATES = 5;

/** One case on paper: what was wrong, what was known, every step with what was thought then, and how it ended. */
export function caseReport(
  view: CaseView,
  timeline: Timeline,
  pictures: readonly ReportPicture[],
  words: ReportWords,
  footer: Message,
): ReportDocument {
  const { closing } = view;
  const hasInitials = timeline.steps.some(({ by }) => by !== null);
  const last = view.trail.at(-1)?.at ?? view.openedAt;
  return {
    title: m.caseNumber({ number: view.number }),
    subtitle: { series: view.complaints.map(complaintInWords) },
    facts: [
      [m.printer(), view.printer?.label ?? m.noneNamed()],
      [m.spool(), view.spool?.label ?? m.noneNamed()],
      [m.profile(), view.profile ?? m.noneNamed()],
      ...(view.files.length > 0 ? ([[m.files(), view.files]] as const) : []),
      ...(view.tags.length > 0 ? ([[m.tags(), view.tags]] as const) : []),
      [
        m.opened(),
        view.openedBy
          ? m.openedBy({ at: words.time(view.openedAt), by: view.openedBy })
          : words.time(view.openedAt),
      ],
      [m.state(), view.state === 'closed' ? m.closedAt({ at: words.time(last) }) : m.stillOpen()],
      ...(closing
        ? ([
            [m.cause(), { series: closing.causes.map(({ label }) => valueTexts.m.only({ value: label })) }],
            [m.habitBehindIt(), closing.practice?.label ?? m.noneNamed()],
            [
              m.lost(),
              m.lostTimeAndFilament({
                time: minutesInWords(closing.minutesLost),
                grams: Math.round(closing.gramsScrapped),
              }),
            ],
          ] as const)
        : []),
    ],
    sections: [
      ...(view.words ? [{ heading: m.wordsOfOperator(), paragraphs: [view.words] }] : []),
      ...(closing?.note ? [{ heading: m.noteAtTheEnd(), paragraphs: [closing.note] }] : []),
      ...(closing?.practice
        ? [{ heading: m.whatToDoNextTime(), paragraphs: [closing.practice.better] }]
        : []),
      ...(closing
        ? []
        : [
            {
              heading: m.likeliestByNow(),
              paragraphs: view.candidates
                .slice(0, MOST_CANDIDATES)
                .map(({ label, probability }) =>
                  m.causeHowLikely({ cause: label, share: shareInWords(probability) }),
                ),
            },
          ]),
      {
        heading: REPORT_TABLES.case.steps,
        paragraphs: timeline.isSameKnowledge ? [] : [m.todaysGuide()],
        table: {
          name: 'steps',
          columns: [
            { key: 'number', label: m.number(), isFigure: true },
            { key: 'at', label: m.when(), isShort: true },
            { key: 'what', label: m.what() },
            ...(hasInitials ? [{ key: 'who', label: m.who() }] : []),
            { key: 'likeliestCause', label: m.likeliestThen() },
            { key: 'probability', label: m.howLikely(), isShare: true },
          ],
          rows: timeline.steps.map(({ seq, at, text, isUndone, by, candidates }) => [
            seq,
            words.time(at),
            isUndone ? m.takenBack({ text }) : text,
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
            { key: 'condition', label: m.circumstance() },
            { key: 'value', label: m.value() },
            { key: 'because', label: m.howItIsKnown() },
          ],
          rows: view.conditions.map(({ label, valueLabel, because }) => [
            label,
            valueLabel,
            because ?? m.said(),
          ]),
        },
        ifEmpty: m.noneKnown(),
      },
      ...(pictures.length > 0 ? [{ heading: m.photos(), pictures }] : []),
    ],
    footer,
  };
}

/** "Stringing: heavy"; where it is only there, "Stringing". */
function complaintInWords({ label, value }: CaseView['complaints'][number]): Message {
  const what = valueTexts.m.only({ value: label });
  if (typeof value === 'string') return m.complaint({ what, value: inSentence(value) });
  return 'id' in value && value.id === valueTexts.m.present().id ? what : m.complaint({ what, value });
}
