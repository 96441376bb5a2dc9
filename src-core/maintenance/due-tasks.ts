import type { DueTask, MaintenancePlan } from '../contract/maintenance-view.ts';
import { knownToHold, type Conditions } from '../knowledge/conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { MAINTENANCE_UNITS } from '../contract/maintenance-units.ts';
import type { Interval } from '../knowledge/maintenance-schema.ts';
import { dayAfter } from '../recurrence/shop-calendar.ts';
import { lastDone, type MaintenanceEntry } from './maintenance-log.ts';
import { usedSince, type PrinterUse } from './printer-use.ts';

const DAY_MS = 24 * 3_600_000;

/** A task as it counts for one printer. */
export interface PlannedTask {
  readonly task: string;
  readonly label: string;
  readonly isOwn: boolean;
  readonly every: Interval;
}

/**
 * What a printer needs: the guide's tasks for a machine like this, as the shop has set them for its model or for all. What
 * is said of the model goes before what is said of all.
 */
export function plannedTasks(
  knowledge: Pick<Knowledge, 'maintenanceTasks'>,
  plan: MaintenancePlan,
  printer: { readonly model: string; readonly conditions: Conditions },
): readonly PlannedTask[] {
  const ruleFor = (task: string) => {
    const own = plan.rules.filter((rule) => rule.task === task);
    const isOfModel = (rule: { readonly model: string }) =>
      rule.model !== '' && rule.model.toLowerCase() === printer.model.toLowerCase();
    return own.find(isOfModel) ?? own.find(({ model }) => model === '');
  };
  const guide = [...knowledge.maintenanceTasks.values()].flatMap((task): PlannedTask[] => {
    if (task.when && !knownToHold(task.when, printer.conditions)) return [];
    const rule = ruleFor(task.id);
    const usual =
      task.variants.find(({ when }) => knownToHold(when, printer.conditions))?.every ?? task.every;
    const every = rule ? rule.every : usual;
    return every === null ? [] : [{ task: task.id, label: task.label, isOwn: false, every }];
  });
  const ownIds = new Set(plan.rules.flatMap(({ task, label }) => (label === null ? [] : [task])));
  const own = [...ownIds].flatMap((id): PlannedTask[] => {
    const rule = ruleFor(id);
    if (!rule?.every || rule.label === null || knowledge.maintenanceTasks.has(id)) return [];
    return [{ task: id, label: rule.label, isOwn: true, every: rule.every }];
  });
  return [...guide, ...own];
}

/** When each task is due, most urgent first. `beginMs`: from when on the printer is counted; `today` by the shop's calendar. */
export function dueTasks(
  knowledge: Pick<Knowledge, 'nozzleWear'>,
  tasks: readonly PlannedTask[],
  entries: readonly MaintenanceEntry[],
  use: PrinterUse,
  times: { readonly beginMs: number; readonly nowMs: number; readonly today: string },
): readonly DueTask[] {
  const { beginMs, nowMs, today } = times;
  return tasks
    .map(({ task, label, isOwn, every }): DueTask => {
      const last = lastDone(entries, task);
      const sinceMs = last ? Date.parse(last.at) : beginMs;
      const counted = MAINTENANCE_UNITS.flatMap((unit) => {
        const limit = every[unit];
        const used = limit === undefined ? null : usedSince(knowledge, use, unit, sinceMs, nowMs);
        return limit === undefined || used === null ? [] : [{ unit, every: limit, ...used }];
      });
      const daysLeft = counted.map(({ amount, every: limit, perDay }) =>
        amount >= limit ? 0 : perDay === null || perDay <= 0 ? Infinity : (limit - amount) / perDay,
      );
      const soonest = Math.min(...daysLeft);
      const dueOn = Number.isFinite(soonest) && soonest < 3650 ? dayAfter(today, Math.floor(soonest)) : null;
      return {
        task,
        label,
        isOwn,
        due:
          counted.length === 0
            ? 'not-counted'
            : soonest === 0
              ? 'overdue'
              : dueOn !== null && dueOn <= dayAfter(today, 6)
                ? 'this-week'
                : 'later',
        dueOn,
        share: Math.max(0, ...counted.map(({ amount, every: limit }) => amount / limit)),
        limits: counted.map(({ unit, amount, every: limit, isEstimated }) => ({
          unit,
          used: amount,
          every: limit,
          isEstimated,
        })),
        since: new Date(sinceMs).toISOString(),
        last: last && { seq: last.seq, at: last.at, part: last.part },
      };
    })
    .sort((a, b) => (a.dueOn ?? '9999').localeCompare(b.dueOn ?? '9999') || b.share - a.share);
}

/** Whole days from one time to another (ms since 1970). */
export function wholeDays(fromMs: number, toMs: number): number {
  return Math.max(0, Math.floor((toMs - fromMs) / DAY_MS));
}
