import type { DryingReport } from '../contract/spool-life.ts';
import { LONGEST_HOURS } from './drying-plan.ts';

/** Among the figures: how long the wait is, minute. No text of the guide has a place for it. */
export const DRYING_WAIT = 'drying-wait-minutes';

/** What a drying plan puts in the places of the guide's drying figures: "{drying-temperature}" and "{drying-hours}". */
export function dryingFigures(drying: DryingReport): Readonly<Record<string, string>> {
  const temperature = { 'drying-temperature': `${Math.round(drying.temperatureC)} °C` };
  switch (drying.kind) {
    case 'dry-already':
      return {
        ...temperature,
        'drying-hours': 'a few hours to be sure (by where it has been, this spool is dry enough already)',
      };
    case 'cannot':
      return {
        ...temperature,
        'drying-hours':
          drying.because === 'air-too-damp'
            ? 'as long as you can, but in room air this spool will not get dry enough: it needs a dryer with dried air'
            : `${LONGEST_HOURS} h and more: at this temperature the water leaves this spool too slowly, so ask the lead for a better dryer or another spool`,
      };
    case 'plan':
      return {
        ...temperature,
        'drying-hours': planWords(drying),
        [DRYING_WAIT]: String(waitMinutes(drying)),
      };
  }
}

/** How long to plan for, minute: that of slow water; where that never gets dry enough, the longest that is worked out. */
function waitMinutes({ innerHours, outerHours, warmUpHours }: DryingReport): number {
  const slow = Math.max(
    ...[innerHours?.high, outerHours?.high].map((one) => (one === null ? LONGEST_HOURS : (one ?? 0))),
  );
  return 60 * Number(hours(slow + warmUpHours));
}

function planWords({ innerHours, outerHours, warmUpHours, mayStayDamp }: DryingReport): string {
  // The slowest wraps decide; the time to plan for is that of slow water.
  const likely = Math.max(innerHours?.likely ?? 0, outerHours?.likely ?? 0) + warmUpHours;
  const slow = [innerHours?.high, outerHours?.high];
  const until = slow.includes(null)
    ? `more than ${LONGEST_HOURS}`
    : `${hours(Math.max(...slow.map((one) => one ?? 0)) + warmUpHours)}`;
  const weigh = mayStayDamp ? ', and weigh it: it may stay damp' : '';
  return `${hours(likely)} to ${until} h, worked out for this spool${weigh}`;
}

function hours(value: number): string {
  return value < 10 ? String(Math.max(1, Math.round(value))) : String(Math.round(value / 2) * 2);
}
