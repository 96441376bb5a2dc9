import type { Action } from '../../../src-core/contract/action-view.ts';
import type { Recurrence } from '../../../src-core/contract/recurrence-view.ts';
import { aboutWords, measuredWords } from '../../wording/action-words.ts';
import {
  byChanceWords,
  costliestWords,
  countedFindingWords,
  countWords,
  findingWords,
  rowsStandingOut,
  sentence,
  sinceWords,
  timesWords,
} from '../../wording/recurrence-words.ts';
import { sentences } from '../../messages/lists.ts';
import { m } from '../../messages/en/recurrence.ts';

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
    question: m.whatCostsMost(),
    answer: said?.title ?? m.noTimeLostIsOnRecord(),
    lines: said?.lines ?? [],
  };
}

function standsOut(recurrence: Recurrence): Card {
  const question = m.whatStandsOut();
  const rows = rowsStandingOut(recurrence);
  const [first, ...others] = rows;
  if (!first) {
    const watched = recurrence.rows.find(({ standing }) => standing === 'worth-watching');
    return {
      id: 'stands-out',
      question,
      answer: m.nothingForCertain(),
      lines: watched
        ? [
            m.closestToItItCouldBe({
              finding: findingWords(watched, recurrence.by),
              count: countWords(watched),
            }),
          ]
        : [m.nothingComesBackMoreOftenThan()],
    };
  }
  const shown = others.slice(0, MOST_LINES - 1);
  return {
    id: 'stands-out',
    question,
    answer: countedFindingWords(first, recurrence.by),
    lines: [
      ...(first.since ? [sentence(sinceWords(first.since))] : []),
      ...shown.map((row) => sentence(countedFindingWords(row, recurrence.by))),
      sentences([
        others.length > shown.length ? m.moreInTheTable({ othersCount: others.length - shown.length }) : '',
        byChanceWords(recurrence),
      ]),
    ],
  };
}

function better({ better: fallen }: Recurrence, actions: readonly Action[]): Card {
  const helped = actions.filter(({ effect }) => effect?.verdict === 'helped');
  const lines = [
    ...helped.map((action) => ({
      answer:
        action.effect?.ratio === 0
          ? m.noneSince({ about: aboutWords(action) ?? action.title })
          : m.aboutTimes({
              about: aboutWords(action) ?? action.title,
              times: timesWords(action.effect?.ratio ?? 0),
            }),
      line: m.after({ actionTitle: action.title, effect: action.effect ? measuredWords(action.effect) : '' }),
    })),
    ...fallen.map(({ label, kind, change }) => ({
      answer:
        kind === 'cause'
          ? m.wholeShop({ label, times: timesWords(change.ratio) })
          : m.anyFault({ label, times: timesWords(change.ratio) }),
      line: sentence(sinceWords(change)),
    })),
  ];
  const [first, ...others] = lines;
  const open = actions.filter(({ effect }) => effect?.verdict === 'not-yet').length;
  return {
    id: 'better',
    question: m.whatGotBetter(),
    answer: first?.answer ?? m.nothingThatCanBeToldFrom(),
    lines: [
      ...(first ? [first.line] : []),
      ...others.slice(0, MOST_LINES - 1).map(({ answer }) => sentence(answer)),
      ...(open > 0 ? [m.ofActionsItCannotBeTold({ open })] : []),
    ],
  };
}
