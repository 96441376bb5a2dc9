import type { DryingReport } from '../contract/spool-life.ts';
import { dryingTexts } from '../words/en/drying.ts';
import type { WorkedOut } from '../words/guide-figures.ts';
import { celsius, type Message } from '../words/message.ts';
import { LONGEST_HOURS } from './drying-plan.ts';

const { m } = dryingTexts;

/** Among the figures: how long the wait is, minute. No text of the guide has a place for it. */
export const DRYING_WAIT = 'drying-wait-minutes';

/** What a drying plan puts in the places of the guide's drying figures: "{drying-temperature}" and "{drying-hours}". */
export function dryingFigures(drying: DryingReport): WorkedOut {
  const figures = {
    'drying-temperature': m.temperature({ temperature: celsius(Math.round(drying.temperatureC)) }),
    'drying-hours': hoursOf(drying),
  };
  return drying.kind === 'plan' ? { ...figures, [DRYING_WAIT]: waitMinutes(drying) } : figures;
}

function hoursOf(drying: DryingReport): Message {
  switch (drying.kind) {
    case 'dry-already':
      return m.aFewHours();
    case 'cannot':
      return drying.because === 'air-too-damp' ? m.airTooDamp() : m.tooSlow({ longestHours: LONGEST_HOURS });
    case 'plan':
      return planned(drying);
  }
}

/** How long to plan for, minute: that of slow water; where that never gets dry enough, the longest that is worked out. */
function waitMinutes({ innerHours, outerHours, warmUpHours }: DryingReport): number {
  const slow = Math.max(
    ...[innerHours?.high, outerHours?.high].map((one) => (one === null ? LONGEST_HOURS : (one ?? 0))),
  );
  return 60 * rounded(slow + warmUpHours);
}

function planned({ innerHours, outerHours, warmUpHours, mayStayDamp }: DryingReport): Message {
  // The slowest wraps decide; the time to plan for is that of slow water.
  const likelyHours = rounded(Math.max(innerHours?.likely ?? 0, outerHours?.likely ?? 0) + warmUpHours);
  const slow = [innerHours?.high, outerHours?.high];
  if (slow.includes(null)) {
    const said = { likelyHours, longestHours: LONGEST_HOURS };
    return mayStayDamp ? m.plannedOrMoreAndWeigh(said) : m.plannedOrMore(said);
  }
  const said = { likelyHours, slowHours: rounded(Math.max(...slow.map((one) => one ?? 0)) + warmUpHours) };
  return mayStayDamp ? m.plannedAndWeigh(said) : m.planned(said);
}

/** Hours as nobody sets them finer: whole ones, from ten on even ones. */
function rounded(hours: number): number {
  return hours < 10 ? Math.max(1, Math.round(hours)) : Math.round(hours / 2) * 2;
}
