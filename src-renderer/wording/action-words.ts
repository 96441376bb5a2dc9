import { told } from '../display/told.ts';
import { fixed } from '../messages/figures.ts';
import { locale } from '../messages/language.ts';
import type { Action, ActionEffect } from '../../src-core/contract/action-view.ts';
import type { ActionKind } from '../../src-core/contract/recurrence-choices.ts';
import { calendarDay } from './format.ts';
import { casesWords, fractionWords, GROUPING_WORDS, timesWords } from './recurrence-words.ts';
import { m } from '../messages/en/action-words.ts';

export const ACTION_KIND_WORDS: Readonly<Record<ActionKind, string>> = {
  habit: m.changeOfHabit(),
  maintenance: m.maintenance(),
  purchase: m.purchase(),
};

/** What an action is hoped to do, as it is chosen: the rate after over the rate before. */
export const HOPES = [
  { ratio: 0.75, words: m.aQuarterFewerCases() },
  { ratio: 0.5, words: m.halfTheCases() },
  { ratio: 0.3, words: m.aThirdOfTheCasesOr() },
  { ratio: 0.1, words: m.hardlyAnyCase() },
] as const;

/** "Wet filament on Heron". */
export function aboutWords({ about }: Pick<Action, 'about'>): string | null {
  if (!about) return null;
  return about.where === null
    ? told(about.whatLabel)
    : GROUPING_WORDS[about.by].found({ what: told(about.whatLabel), where: told(about.whereLabel) });
}

export function dueWords(action: Action): string | null {
  if (action.state !== 'open') return null;
  if (action.dueOn === null) return m.noDate();
  const day = calendarDay(action.dueOn);
  return action.due === 'overdue'
    ? m.overdueSince({ day })
    : action.due === 'this-week'
      ? m.dueThisWeek({ day })
      : m.due({ day });
}

/** Whether it helped, in one sentence. */
export function verdictWords({ effect, about }: Pick<Action, 'effect' | 'about'>): string {
  if (about === null) return m.done();
  if (!effect) return m.doneNothingCanBeMeasuredUntil();
  return effectWords(effect);
}

/** What a measured effect comes to: "It helped: half as often as before." */
export function effectWords(effect: ActionEffect): string {
  const { ratio, verdict } = effect;
  if (verdict === 'helped')
    return ratio === 0 ? m.itHelpedNoneSince() : m.itHelped({ times: timesWords(ratio ?? 0) });
  if (verdict === 'made-worse')
    return ratio === null ? m.itGotWorseNoneBefore() : m.itGotWorse({ times: timesWords(ratio) });
  return m.cannotBeToldYet({ tellable: tellableWords(effect) });
}

/** "18 cases in 1,300 print hours before, 2 in 1,350 after." */
export function measuredWords({ before, after }: ActionEffect): string {
  const hours = (value: number) => Math.round(value).toLocaleString(locale());
  return m.inPrintHoursBeforeInAfter({
    cases: casesWords(before.count),
    hours: hours(before.hours),
    count: after.count,
    hours2: hours(after.hours),
  });
}

/** The ratio with its limits, for those who want figures. */
export function ratioWords({ ratio, low, high }: ActionEffect): string {
  const figure = (value: number) => fixed(value, value < 1 ? 2 : 1);
  const limits =
    high === null
      ? m.toNoUpperLimit({ figure: figure(low) })
      : m.to({ figure: figure(low), figure2: figure(high) });
  return ratio === null
    ? m.ratioOfTheRatesNotKnown({ limits })
    : m.ratioOfTheRates({ figure: figure(ratio), limits });
}

function tellableWords({ tellable, after }: ActionEffect): string {
  if (tellable === null) return m.thereWereTooFewCasesBefore();
  const hours = Math.round(tellable.hours).toLocaleString(locale());
  if (tellable.hours <= after.hours) return m.byNowTheEffectHopedFor();
  return tellable.on === null
    ? m.theEffectHopedForShowsAfter({ hours })
    : m.theEffectHopedForShowsFrom({ day: calendarDay(tellable.on), hours });
}

/** What is hoped for: "half as often as before". */
export function hopeWords(expectedRatio: number): string {
  return (
    HOPES.find(({ ratio }) => ratio === expectedRatio)?.words ??
    m.ofTheCases({ fraction: fractionWords(expectedRatio) })
  );
}

/** Where an action stands: "Due 3 Mar 2026, this week", "Put off until …", "Done 2 Mar 2026", "Left". */
export function stateWords(action: Action): string {
  switch (action.state) {
    case 'open':
      return dueWords(action) ?? '';
    case 'snoozed':
      return m.putOffUntil({ day: calendarDay(action.snoozedUntil ?? '') });
    case 'done':
      return m.doneWithDay({ day: calendarDay(action.doneOn ?? '') });
    case 'dismissed':
      return m.leftAsItIs();
  }
}

/** The verdict in a word or two. */
export const VERDICTS: Readonly<Record<ActionEffect['verdict'], string>> = {
  helped: m.itHelpedInSentence(),
  'made-worse': m.itGotWorseInSentence(),
  'not-yet': m.cannotBeToldYetInSentence(),
};

/** The same with whether it helped: "Done 2 Mar 2026, it helped". */
export function shortWords(action: Action): string {
  const state = stateWords(action);
  return action.effect ? m.stateAndVerdict({ state, verdict: VERDICTS[action.effect.verdict] }) : state;
}
