import { afterEach, describe, expect, it } from 'vitest';
import type { Action, ActionEffect } from '../../src-core/contract/action-view.ts';
import type { DatedChangeView, Recurrence, RecurrenceRow } from '../../src-core/contract/recurrence-view.ts';
import { findingTexts } from '../../src-core/words/en/findings.ts';
import { speak } from '../../src-renderer/messages/language.ts';
import { parse } from '../../src-renderer/messages/parse-pattern.ts';
import { threeCards } from '../../src-renderer/screens/recurrence/three-cards.ts';
import { measuredWords, stateWords, verdictWords } from '../../src-renderer/wording/action-words.ts';
import { chanceWords, expectedWords } from '../../src-renderer/wording/chance-words.ts';
import {
  byChanceWords,
  countWords,
  findingWords,
  fractionWords,
  looksWords,
  periodTotals,
  sinceWords,
  timesWords,
} from '../../src-renderer/wording/recurrence-words.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

function row(whereLabel: string, whatLabel: string, standing: RecurrenceRow['standing']): RecurrenceRow {
  return {
    where: whereLabel,
    whereLabel,
    printerId: null,
    what: whatLabel,
    whatLabel,
    count: 28,
    minutesLost: 600,
    gramsScrapped: 100,
    money: null,
    exposure: 1000,
    isEstimated: false,
    expectedCount: 9.7,
    chance: 0.001,
    adjustedChance: 0.02,
    standing,
    rate: 28,
    rateLow: 18,
    rateHigh: 40,
    leaningRate: 25,
    since: null,
    spacing: null,
    practices: [],
  };
}

function recurrence(rows: readonly RecurrenceRow[], expectedByChance = 0): Recurrence {
  const lost = { count: 28, minutesLost: 600, gramsScrapped: 1250, money: null };
  return {
    from: '2026-01-01T00:00:00.000Z',
    to: '2026-12-01T00:00:00.000Z',
    timeZone: 'UTC',
    by: 'printer',
    exposure: 'print-hours',
    caseCount: 28,
    minutesLost: 14_692,
    gramsScrapped: 1250,
    money: null,
    currency: null,
    printHours: 13_560,
    rows: [...rows],
    looks: 240,
    expectedByChance,
    withoutGroup: 0,
    withoutHours: 0,
    estimatedHours: 0,
    unread: [],
    groups: [
      { id: 'w', label: 'Wren', ...lost, minutesLost: 60, printHours: 1 },
      { id: 'h', label: 'Heron', ...lost, minutesLost: 7346, printHours: 1 },
    ],
    causes: [{ id: 'c', label: 'Wet filament', ...lost }],
    practices: [],
    months: [],
    centre: null,
    better: [],
  };
}

const change: DatedChangeView = {
  day: '2026-03-12',
  firstDay: '2026-02-02',
  lastDay: '2026-04-20',
  ratio: 0.13,
  ratioLow: 0.05,
  ratioHigh: 0.4,
  weight: 50,
};
const out = row('Heron', 'Wet filament', 'stands-out');

describe('the three cards', () => {
  it('say what costs most, what stands out and since when, and what got better', () => {
    const [costs, standing, better] = threeCards(
      recurrence([{ ...out, since: change }, row('Kestrel', 'Clog', 'stands-out')], 0.2),
      [action({ effect: effect({ verdict: 'helped', ratio: 0.1 }) })],
    );
    expect(costs).toMatchObject({
      answer: 'Heron: 122 h',
      lines: [
        '50 % of all that was lost, in 28 cases.',
        'Then Wren, 1 h.',
        'Of the causes: Wet filament, 10 h.',
      ],
    });
    expect(standing).toMatchObject({
      answer: 'Wet filament on Heron: 28 cases, about 9.7 expected',
      lines: [
        'Since about 12 Mar 2026 (between 2 Feb 2026 and 20 Apr 2026): about a tenth as often as before.',
        'Clog on Kestrel: 28 cases, about 9.7 expected.',
        'Of these 2, expect at most one to be chance.',
      ],
    });
    expect(better).toMatchObject({
      answer: 'Wet filament on Heron: a tenth as often as before',
      lines: ['After “Dryer”: 18 cases in 1,300 print hours before, 2 in 1,350 after.'],
    });
  });

  it('claim nothing where nothing can be told', () => {
    const [, standing, better] = threeCards(recurrence([row('Wren', 'Clog', 'worth-watching')]), []);
    expect(standing).toMatchObject({
      answer: 'Nothing for certain',
      lines: ['Closest to it: Clog on Wren, 28 cases, about 9.7 expected. It could be chance.'],
    });
    expect(better).toMatchObject({ answer: 'Nothing that can be told from chance', lines: [] });
  });
});

describe('a finding', () => {
  const { m } = findingTexts;
  afterEach(() => speak('en', {}, parse));

  it('names what and where in the language of the page, whatever the grouping; labels of earlier versions stay', () => {
    const inMarch = { whatLabel: m.anyFault(), whereLabel: m.monthOfAnyYear({ month: { month: '03' } }) };
    const atNight = { whatLabel: 'Wet filament', whereLabel: m.nightShift() };
    expect(findingWords(inMarch, 'month')).toBe('Any fault in March');
    expect(findingWords(atNight, 'shift')).toBe('Wet filament, Night (22 to 6)');
    expect(findingWords({ whatLabel: 'Any fault', whereLabel: 'Heron' }, 'printer')).toBe(
      'Any fault on Heron',
    );
    speak(
      'de',
      { 'findings.anyFault': 'Jede Störung', 'recurrenceWords.foundIn': '{what} im {where}' },
      parse,
    );
    expect(findingWords(inMarch, 'month')).toBe('Jede Störung im März');
  });
});

describe('many looks', () => {
  it('are told with how many findings may be chance', () => {
    const four = Array.from({ length: 4 }, () => out);
    expect(byChanceWords(recurrence(four, 0.4))).toBe('Of these 4, expect at most one to be chance.');
    expect(
      byChanceWords(
        recurrence(
          Array.from({ length: 14 }, () => out),
          1.4,
        ),
      ),
    ).toBe('Of these 14, expect at most 2 to be chance.');
    expect(byChanceWords(recurrence([out], 0.1))).toContain('about once in ten');
    expect(looksWords(recurrence([]))).toBe(
      '240 pairs were looked at, so some small chances are to be expected. None of them is small enough to stand out among so many.',
    );
  });
});

describe('what was expected', () => {
  it('is said without figures where it is next to nothing', () => {
    expect([0, 0.4, 9.7, 12.4].map((expectedCount) => countWords({ count: 3, expectedCount }))).toEqual([
      '3 cases, none expected',
      '3 cases, less than one expected',
      '3 cases, about 9.7 expected',
      '3 cases, about 12 expected',
    ]);
  });
});

describe('rates in words', () => {
  it('are said as people say them aloud', () => {
    expect([0.02, 0.1, 0.26, 0.34, 0.5, 0.8, 0.9].map(fractionWords)).toEqual([
      'less than a tenth',
      'a tenth',
      'about a quarter',
      'a third',
      'half',
      'about three quarters',
      'nearly',
    ]);
    expect([1, 5.2, 12].map(timesWords)).toEqual([
      'about as often as before',
      '5.2 times as often as before',
      '12 times as often as before',
    ]);
    expect(sinceWords({ ...change, ratio: 4 })).toContain('4.0 times as often as before');
  });
});

function effect(parts: Partial<ActionEffect>): ActionEffect {
  return {
    before: { count: 18, hours: 1300 },
    after: { count: 2, hours: 1350 },
    ratio: 0.5,
    low: 0.2,
    high: 1.4,
    verdict: 'not-yet',
    tellable: null,
    ...parts,
  };
}

function action(parts: Partial<Action>): Action {
  return {
    actionId: '0'.repeat(26),
    revision: 1,
    title: 'Dryer',
    kind: 'purchase',
    owner: 'RK',
    dueOn: null,
    expectedRatio: 0.5,
    about: {
      by: 'printer',
      where: 'h',
      whereLabel: 'Heron',
      what: 'wet-filament',
      whatLabel: 'Wet filament',
    },
    state: 'done',
    openedAt: '2026-01-01T00:00:00.000Z',
    snoozedUntil: null,
    dismissedBecause: null,
    doneOn: '2026-03-01',
    due: null,
    effect: null,
    isDemo: false,
    ...parts,
  };
}

describe('whether an action helped', () => {
  it.each([
    [effect({ verdict: 'helped', ratio: 0.1 }), 'It helped: a tenth as often as before.'],
    [effect({ verdict: 'helped', ratio: 0 }), 'It helped: none since.'],
    [effect({ verdict: 'made-worse', ratio: 3 }), 'It got worse: 3.0 times as often as before.'],
    [effect({ verdict: 'made-worse', ratio: null }), 'It got worse: none before.'],
    [
      effect({ tellable: { hours: 2400, on: '2027-02-10' } }),
      'Cannot be told yet. The effect hoped for shows from about 10 Feb 2027 on (2,400 print hours).',
    ],
    [
      effect({ tellable: { hours: 900, on: null } }),
      'Cannot be told yet. By now the effect hoped for should have shown: if there is one, it is smaller.',
    ],
    [
      effect({}),
      'Cannot be told yet. There were too few cases before it to show what was hoped for within two years.',
    ],
  ])('%#', (measured, words) => {
    expect(verdictWords(action({ effect: measured }))).toBe(words);
  });

  it('says what was counted, and where it stands', () => {
    expect(measuredWords(effect({}))).toBe('18 cases in 1,300 print hours before, 2 in 1,350 after.');
    const open = { state: 'open', doneOn: null, dueOn: '2026-03-06' } as const;
    expect([
      stateWords(action({ ...open, due: 'overdue' })),
      stateWords(action({ ...open, due: 'this-week' })),
      stateWords(action({ ...open, dueOn: null })),
      stateWords(action({ state: 'snoozed', snoozedUntil: '2026-04-01' })),
      stateWords(action({})),
    ]).toEqual([
      'Overdue since 6 Mar 2026',
      'Due 6 Mar 2026, this week',
      'No date',
      'Put off until 1 Apr 2026',
      'Done 1 Mar 2026',
    ]);
  });
});

describe('chances and counts in words', () => {
  it('keep as much precision as helps and never read 0 %', () => {
    expect([0.46, 0.031, 0.0012, 0.00002, 1e-12, 0.9999, 1].map((one) => plain(chanceWords(one)))).toEqual([
      '46 %',
      '3.1 %',
      '0.12 %',
      'below 0.01 %',
      'below 0.01 %',
      'above 99 %',
      '100 %',
    ]);
    expect([12.4, 9.7, 0.397, 0.001].map(expectedWords)).toEqual(['12', '9.7', '0.40', 'below 0.01']);
  });

  it('give the period its totals in hours, not days', () => {
    expect(periodTotals(recurrence([]))).toBe(
      '28 cases closed in 13,560 print hours, 245 h lost, 1.3 kg of filament scrapped.',
    );
    expect(periodTotals({ ...recurrence([]), money: 1234.6, currency: 'EUR' })).toContain(
      '1235 EUR (245 h) lost',
    );
  });
});
