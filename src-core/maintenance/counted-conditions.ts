import type { Knowledge } from '../knowledge/knowledge.ts';
import type { MaintenanceTask } from '../knowledge/maintenance-schema.ts';
import { circumstanceTexts } from '../words/en/circumstances.ts';
import type { Message } from '../words/message.ts';
import { wholeDays, type PlannedTask } from './due-tasks.ts';
import { lastDone, type MaintenanceEntry } from './maintenance-log.ts';
import { usedSince, type PrinterUse } from './printer-use.ts';

const { m } = circumstanceTexts;

/** A circumstance that follows from the dates of the log. */
export interface CountedCondition {
  readonly condition: string;
  readonly value: number;
  readonly because: readonly Message[];
}

/** Conditions that are counted from dates wherever the guide has tasks for them: what was once typed there goes stale. */
export function countedConditionIds(knowledge: Pick<Knowledge, 'maintenanceTasks'>): ReadonlySet<string> {
  return new Set(
    [...knowledge.maintenanceTasks.values()].flatMap(({ counts }) =>
      counts.map(({ condition }) => condition),
    ),
  );
}

/**
 * What the log says of a case's circumstances. Where several tasks count for one condition it is known once all of them have
 * been done, and what lies back furthest counts. Nothing is said where a task was never logged, or a counter is silent.
 */
export function countedConditions(
  knowledge: Pick<Knowledge, 'conditions' | 'maintenanceTasks' | 'nozzleWear'>,
  planned: readonly PlannedTask[],
  entries: readonly MaintenanceEntry[],
  use: PrinterUse,
  nowMs: number,
): readonly CountedCondition[] {
  const tasks = planned.flatMap(({ task }) => knowledge.maintenanceTasks.get(task) ?? []);
  return [...countedConditionIds(knowledge)].flatMap((condition): CountedCondition[] => {
    const range = knowledge.conditions.get(condition)?.number;
    const sources = tasks.flatMap((task) =>
      task.counts.filter((one) => one.condition === condition).map(({ as }) => ({ task, as })),
    );
    if (!range || sources.length === 0) return [];
    const counted = sources.flatMap(({ task, as }) => countedFrom(task, as) ?? []);
    if (counted.length < sources.length) return [];
    const [first, ...others] = counted.toSorted((a, b) => b.value - a.value);
    if (!first) return [];
    const value = Math.min(range.max, Math.max(range.min, first.value));
    const because = [
      first.because,
      ...(others.length === 0 ? [] : [m.furthestBack({ count: counted.length })]),
    ];
    return [{ condition, value, because }];
  });

  function countedFrom(task: MaintenanceTask, as: MaintenanceTask['counts'][number]['as']) {
    const last = lastDone(entries, task.id);
    if (!last) return null;
    const sinceMs = Date.parse(last.at);
    const done = { task: task.label, day: { day: last.at } };
    if (as === 'days') {
      const days = wholeDays(sinceMs, nowMs);
      return { value: days, because: m.countedDays({ ...done, count: days }) };
    }
    const used = usedSince(knowledge, use, as, sinceMs, nowMs);
    if (!used) return null;
    const hours = Math.round(used.amount);
    const [whole, partly] =
      as === 'hours'
        ? [m.countedHours, m.countedHoursPartly]
        : [m.countedAbrasiveHours, m.countedAbrasiveHoursPartly];
    return { value: hours, because: (used.isEstimated ? partly : whole)({ ...done, hours }) };
  }
}
