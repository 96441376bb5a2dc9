import type { Action, ActionEffect } from '../../src-core/contract/action-view.ts';
import type { ActionKind } from '../../src-core/contract/recurrence-choices.ts';
import { calendarDay } from './format.ts';
import { casesWords, fractionWords, GROUPING_WORDS, timesWords } from './recurrence-words.ts';

export const ACTION_KIND_WORDS: Readonly<Record<ActionKind, string>> = {
  habit: 'Change of habit',
  maintenance: 'Maintenance',
  purchase: 'Purchase',
};

/** What an action is hoped to do, as it is chosen: the rate after over the rate before. */
export const HOPES = [
  { ratio: 0.75, words: 'A quarter fewer cases' },
  { ratio: 0.5, words: 'Half the cases' },
  { ratio: 0.3, words: 'A third of the cases or fewer' },
  { ratio: 0.1, words: 'Hardly any case' },
] as const;

/** "Wet filament on Heron". */
export function aboutWords({ about }: Pick<Action, 'about'>): string | null {
  if (!about) return null;
  return about.where === null
    ? about.whatLabel
    : `${about.whatLabel} ${GROUPING_WORDS[about.by].at} ${about.whereLabel}`;
}

export function dueWords(action: Action): string | null {
  if (action.state !== 'open') return null;
  if (action.dueOn === null) return 'No date';
  const day = calendarDay(action.dueOn);
  return action.due === 'overdue'
    ? `Overdue since ${day}`
    : action.due === 'this-week'
      ? `Due ${day}, this week`
      : `Due ${day}`;
}

/** Whether it helped, in one sentence. */
export function verdictWords({ effect, about }: Pick<Action, 'effect' | 'about'>): string {
  if (about === null) return 'Done.';
  if (!effect)
    return 'Done. Nothing can be measured until print hours are read off the meter before and after it.';
  return effectWords(effect);
}

/** What a measured effect comes to: "It helped: half as often as before." */
export function effectWords(effect: ActionEffect): string {
  const { ratio, verdict } = effect;
  if (verdict === 'helped') return `It helped: ${ratio === 0 ? 'none since' : timesWords(ratio ?? 0)}.`;
  if (verdict === 'made-worse')
    return ratio === null ? 'It got worse: none before.' : `It got worse: ${timesWords(ratio)}.`;
  return `Cannot be told yet. ${tellableWords(effect)}`;
}

/** "18 cases in 1,300 print hours before, 2 in 1,350 after." */
export function measuredWords({ before, after }: ActionEffect): string {
  const hours = (value: number) => Math.round(value).toLocaleString('en-GB');
  return `${casesWords(before.count)} in ${hours(before.hours)} print hours before, ${after.count} in ${hours(after.hours)} after.`;
}

/** The ratio with its limits, for those who want figures. */
export function ratioWords({ ratio, low, high }: ActionEffect): string {
  const figure = (value: number) => value.toFixed(value < 1 ? 2 : 1);
  const limits = `${figure(low)} to ${high === null ? 'no upper limit' : figure(high)}`;
  return ratio === null
    ? `Ratio of the rates not known (${limits})`
    : `Ratio of the rates ${figure(ratio)} (${limits})`;
}

function tellableWords({ tellable, after }: ActionEffect): string {
  if (tellable === null)
    return 'There were too few cases before it to show what was hoped for within two years.';
  const hours = Math.round(tellable.hours).toLocaleString('en-GB');
  if (tellable.hours <= after.hours)
    return 'By now the effect hoped for should have shown: if there is one, it is smaller.';
  return tellable.on === null
    ? `The effect hoped for shows after about ${hours} print hours.`
    : `The effect hoped for shows from about ${calendarDay(tellable.on)} on (${hours} print hours).`;
}

/** What is hoped for: "half as often as before". */
export function hopeWords(expectedRatio: number): string {
  return (
    HOPES.find(({ ratio }) => ratio === expectedRatio)?.words ??
    `${fractionWords(expectedRatio)} of the cases`
  );
}

/** Where an action stands: "Due 3 Mar 2026, this week", "Put off until …", "Done 2 Mar 2026", "Left". */
export function stateWords(action: Action): string {
  switch (action.state) {
    case 'open':
      return dueWords(action) ?? '';
    case 'snoozed':
      return `Put off until ${calendarDay(action.snoozedUntil ?? '')}`;
    case 'done':
      return `Done ${calendarDay(action.doneOn ?? '')}`;
    case 'dismissed':
      return 'Left as it is';
  }
}

/** The verdict in a word or two. */
export const VERDICTS: Readonly<Record<ActionEffect['verdict'], string>> = {
  helped: 'it helped',
  'made-worse': 'it got worse',
  'not-yet': 'cannot be told yet',
};

/** The same with whether it helped: "Done 2 Mar 2026, it helped". */
export function shortWords(action: Action): string {
  return action.effect ? `${stateWords(action)}, ${VERDICTS[action.effect.verdict]}` : stateWords(action);
}
