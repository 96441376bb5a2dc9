import type { ActionEffect } from '../../../src-core/contract/action-view.ts';
import type {
  CounterReading,
  MaintenanceEvent,
  MaintenanceHistory,
  MaintenanceList,
} from '../../../src-core/contract/maintenance-view.ts';
import { countedConditions } from '../../../src-core/maintenance/counted-conditions.ts';
import { dueTasks } from '../../../src-core/maintenance/due-tasks.ts';
import {
  faultOfMaintenance,
  lastCounters,
  type LoggedMaintenance,
  type MaintenanceEntry,
} from '../../../src-core/maintenance/maintenance-log.ts';
import { effectOf } from '../../../src-core/recurrence/action-effect.ts';
import { hoursWithin } from '../../../src-core/recurrence/print-hours.ts';
import type { ClosedCase } from '../../../src-core/recurrence/report.ts';
import { causeLabel } from '../../../src-core/session/wording.ts';
import { valueTexts } from '../../../src-core/words/en/values.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { faults } from '../../../src-core/words/en/faults.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { appendUnlessOvertaken } from '../../casebook/append-unless-overtaken.ts';
import type { CasebookDb } from '../../casebook/casebook.ts';
import { insertMaintenance, readMaintenanceLogs } from '../../casebook/maintenance.repository.ts';
import { deleteHourReading, keepHourReading, listPrinters } from '../../casebook/printer.repository.ts';
import { saveSetting, settingRevision } from '../../casebook/shop-setting.repository.ts';
import type { ApplicationContext } from '../application-context.ts';
import { groupsBy, readClosedCases } from '../closed-cases.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';
import { readMaintenance, type MaintenanceOfPrinter } from '../maintenance-records.ts';
import { isBeforeOurTime } from '../still-to-come.ts';
import { readBench } from './bench.ts';
import { readCalendar } from './recurrence.ts';

const DAY_MS = 24 * 3_600_000;
/** What lies further back than this before a maintenance says little of how it was just before. */
const DAYS_BEFORE = 365;
const DAYS_OF_LATE = 60;

export const maintenanceList: Handler<'maintenance:list'> = (program) => readList(program);

async function readList(program: ApplicationContext): Promise<MaintenanceList> {
  const { db } = program.casebook;
  const printers = (await listPrinters(db)).filter(({ isRetired }) => !isRetired);
  const { of, plan, planRevision } = await readMaintenance(program, printers);
  const { openCases } = await program.bench.get(() => readBench(program));
  const inDanger = new Set(
    openCases.flatMap(({ printerId, dangerSigns }) =>
      printerId && dangerSigns.length > 0 ? [printerId] : [],
    ),
  );
  const nowMs = program.now().getTime();
  const today = (await readCalendar(program)).wallTime(nowMs).day;
  return {
    printers: of.map(({ printer, log, entries, planned, use, beginMs }) => ({
      printerId: printer.id,
      label: printer.label,
      model: printer.model,
      isInDanger: inDanger.has(printer.id),
      tasks: [...dueTasks(program.knowledge, planned, entries, use, { beginMs, nowMs, today })],
      revision: log.revision,
      unreadable: log.unreadable,
    })),
    plan,
    planRevision,
    today,
  };
}

export const maintenanceHistory: Handler<'maintenance:history'> = async (program, { printerId }) => {
  const own = await ofPrinter(program, printerId);
  const nowMs = program.now().getTime();
  const labels = new Map(own.planned.map(({ task, label }) => [task, label]));
  const cases = await casesOf(program, printerId, nowMs);
  const { knowledge } = program;
  const entries = own.entries.map((entry): MaintenanceHistory['entries'][number] => {
    const { task } = entry;
    const against = (task === null ? undefined : knowledge.maintenanceTasks.get(task)?.against) ?? [];
    return {
      ...entry,
      label:
        task === null
          ? valueTexts.m.countersRead()
          : (knowledge.maintenanceTasks.get(task)?.label ?? labels.get(task) ?? task),
      effect: against.length === 0 || entry.isUndone ? null : effectAround(own, entry, against, cases, nowMs),
      effectOf: against.map((cause) => causeLabel(knowledge, cause)),
    };
  });
  return {
    printerId,
    entries: entries.toSorted((a, b) => b.at.localeCompare(a.at) || b.seq - a.seq),
    counters: { printHours: own.printer.printHours, ...lastCounters(own.entries) },
    conditions: countedConditions(knowledge, own.planned, own.entries, own.use, nowMs).map((one) => ({
      ...one,
      label: knowledge.conditions.get(one.condition)?.label ?? one.condition,
      unit: knowledge.conditions.get(one.condition)?.number?.unit ?? '',
    })),
  };
};

export const maintenanceLog: Handler<'maintenance:log'> = async (
  program,
  { printerId, event, at, revision },
) => {
  const { db } = program.casebook;
  const own = await ofPrinter(program, printerId);
  const when = at ?? program.now().toISOString();
  if (Date.parse(when) > program.now().getTime()) throw new DomainError('refused', refusals.timeNotCome());
  if (isBeforeOurTime(when))
    throw new DomainError('refused', refusals.yearNotMeant({ year: when.slice(0, 4) }));
  const fault = faultOfMaintenance(own.entries, event) ?? faultOfTask(program, own, event);
  if (fault !== null) throw new DomainError('refused', fault);
  const logged: LoggedMaintenance = { seq: revision + 1, at: when, event };
  const appended = await appendUnlessOvertaken(db, {
    revision,
    standsAt: async (trx) => (await readMaintenanceLogs(trx, printerId)).get(printerId)?.revision ?? 0,
    write: async (trx) => {
      await insertMaintenance(trx, printerId, logged);
      await keepReading(trx, own, logged);
    },
  });
  if (appended === 'stale')
    throw new DomainError('stale', refusals.printerLogMovedOn(), await readList(program));
  return readList(program);
};

export const maintenanceSavePlan: Handler<'maintenance:save-plan'> = async (program, { plan, revision }) => {
  const { knowledge } = program;
  for (const { task, label } of plan.rules)
    if (label === null && !knowledge.maintenanceTasks.has(task))
      throw new DomainError('bad-request', refusals.noSuchTask({ id: task }));
  const appended = await appendUnlessOvertaken(program.casebook.db, {
    revision,
    standsAt: (trx) => settingRevision(trx, 'maintenance-plan'),
    write: (trx) => saveSetting(trx, 'maintenance-plan', plan),
  });
  if (appended === 'stale') throw new DomainError('stale', refusals.planMovedOn(), await readList(program));
  return readList(program);
};

async function ofPrinter(program: ApplicationContext, printerId: string): Promise<MaintenanceOfPrinter> {
  const printer = (await listPrinters(program.casebook.db)).find(({ id }) => id === printerId);
  if (!printer) throw new DomainError('not-found', refusals.printerGone());
  const [own] = (await readMaintenance(program, [printer])).of;
  if (!own) throw new DomainError('not-found', refusals.printerGone());
  return own;
}

function faultOfTask(
  program: ApplicationContext,
  { planned }: MaintenanceOfPrinter,
  event: MaintenanceEvent,
): Message | null {
  if (event.kind !== 'done') return null;
  const isKnown =
    program.knowledge.maintenanceTasks.has(event.task) || planned.some(({ task }) => task === event.task);
  return isKnown ? null : faults.noMaintenanceTask({ id: event.task });
}

/** The meter as it was read with an entry is a dated reading like any other, and goes when the entry is taken back. */
async function keepReading(
  trx: CasebookDb,
  { printer, entries }: MaintenanceOfPrinter,
  { at, event }: LoggedMaintenance,
): Promise<void> {
  const entry = 'of' in event ? entries.find(({ seq }) => seq === event.of) : undefined;
  const when = entry?.at ?? at;
  if (hoursOf(entry?.reading) !== null) await deleteHourReading(trx, printer.id, when);
  const hours = event.kind === 'undone' ? null : hoursOf(event.reading);
  if (hours === null) return;
  const fault = await keepHourReading(trx, printer.id, when, hours);
  if (fault !== null) throw new DomainError('refused', fault);
}

function hoursOf(reading: CounterReading | null | undefined): number | null {
  return reading?.printHours ?? null;
}

async function casesOf(
  program: ApplicationContext,
  printerId: string,
  nowMs: number,
): Promise<readonly ClosedCase[]> {
  const printers = await listPrinters(program.casebook.db);
  const groups = groupsBy('printer', program.knowledge, printers, []);
  const calendar = await readCalendar(program);
  const { cases } = await readClosedCases(program, groups, { printers, spools: [] }, calendar, 0, nowMs);
  return cases.filter((one) => one.printerId === printerId);
}

/** From the time before (a year at most) until this one, against from this one until the next: only what it keeps away. */
function effectAround(
  { entries, use }: MaintenanceOfPrinter,
  entry: MaintenanceEntry,
  against: readonly string[],
  cases: readonly ClosedCase[],
  nowMs: number,
): ActionEffect | null {
  const doneMs = Date.parse(entry.at);
  const others = entries
    .filter((one) => one.task === entry.task && !one.isUndone && one.seq !== entry.seq)
    .map(({ at }) => Date.parse(at));
  const fromMs = Math.max(doneMs - DAYS_BEFORE * DAY_MS, ...others.filter((ms) => ms < doneMs));
  const toMs = Math.min(nowMs, ...others.filter((ms) => ms > doneMs));
  const own = cases.filter(({ causes }) => causes.some((cause) => against.includes(cause)));
  const counted = (from: number, to: number) => ({
    count: own.filter(({ openedMs }) => openedMs >= from && openedMs < to).length,
    exposure: hoursWithin(use.hours, from, to),
  });
  return effectOf({
    before: counted(fromMs, doneMs),
    after: counted(doneMs, toMs),
    expectedRatio: 0.5,
    hoursPerDay: hoursWithin(use.hours, nowMs - DAYS_OF_LATE * DAY_MS, nowMs) / DAYS_OF_LATE,
    nowMs,
  });
}
