import type { Action } from '../../../src-core/contract/action-view.ts';
import type { Recurrence } from '../../../src-core/contract/recurrence-view.ts';
import { aboutWords, measuredWords } from '../../wording/action-words.ts';
import {
  byChanceWords,
  costliestWords,
  countWords,
  findingWords,
  rowsStandingOut,
  sinceWords,
  timesWords,
} from '../../wording/recurrence-words.ts';

/** A card: what it answers, its answer, and what belongs to it. */
export interface Card {
  readonly id: 'costs' | 'stands-out' | 'better';
  readonly question: string;
  readonly answer: string;
  readonly lines: readonly string[];
}

const MOST_LINES = 3;

/** The three things that a lead wants to know first, in words. */
export function threeCards(recurrence: Recurrence, actions: readonly Action[]): readonly Card[] {
  return [costs(recurrence), standsOut(recurrence), better(recurrence, actions)];
}

function costs(recurrence: Recurrence): Card {
  const said = costliestWords(recurrence);
  return {
    id: 'costs',
    question: 'What costs most',
    answer: said?.title ?? 'No time lost is on record',
    lines: said?.lines ?? [],
  };
}

function standsOut(recurrence: Recurrence): Card {
  const question = 'What stands out';
  const rows = rowsStandingOut(recurrence);
  const [first, ...others] = rows;
  if (!first) {
    const watched = recurrence.rows.find(({ standing }) => standing === 'worth-watching');
    return {
      id: 'stands-out',
      question,
      answer: 'Nothing for certain',
      lines: watched
        ? [
            `Closest to it: ${findingWords(watched, recurrence.by)}, ${countWords(watched)}. It could be chance.`,
          ]
        : ['Nothing comes back more often than chance would bring.'],
    };
  }
  const shown = others.slice(0, MOST_LINES - 1);
  return {
    id: 'stands-out',
    question,
    answer: `${findingWords(first, recurrence.by)}: ${countWords(first)}`,
    lines: [
      ...(first.since ? [`${sinceWords(first.since)}.`] : []),
      ...shown.map((row) => `${findingWords(row, recurrence.by)}: ${countWords(row)}.`),
      [
        others.length > shown.length ? `${others.length - shown.length} more in the table.` : '',
        byChanceWords(recurrence),
      ]
        .filter(Boolean)
        .join(' '),
    ],
  };
}

function better({ better: fallen }: Recurrence, actions: readonly Action[]): Card {
  const helped = actions.filter(({ effect }) => effect?.verdict === 'helped');
  const lines = [
    ...helped.map((action) => ({
      answer: `${aboutWords(action) ?? action.title}: ${action.effect?.ratio === 0 ? 'none since' : timesWords(action.effect?.ratio ?? 0)}`,
      line: `After “${action.title}”: ${action.effect ? measuredWords(action.effect) : ''}`,
    })),
    ...fallen.map(({ label, kind, change }) => ({
      answer: `${label}${kind === 'cause' ? ', whole shop' : ', any fault'}: ${timesWords(change.ratio)}`,
      line: `${sinceWords(change)}.`,
    })),
  ];
  const [first, ...others] = lines;
  const open = actions.filter(({ effect }) => effect?.verdict === 'not-yet').length;
  return {
    id: 'better',
    question: 'What got better',
    answer: first?.answer ?? 'Nothing that can be told from chance',
    lines: [
      ...(first ? [first.line] : []),
      ...others.slice(0, MOST_LINES - 1).map(({ answer }) => `${answer}.`),
      ...(open > 0
        ? [`Of ${open === 1 ? 'one action' : `${open} actions`} it cannot be told yet whether it helped.`]
        : []),
    ],
  };
}
