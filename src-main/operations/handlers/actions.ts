import type { Action, ActionEffect, ActionPlan } from '../../../src-core/contract/action-view.ts';
import { ANY_FAULT } from '../../../src-core/contract/recurrence-choices.ts';
import { effectOf } from '../../../src-core/recurrence/action-effect.ts';
import {
  actionFrom,
  dueOf,
  faultOfActionEvent,
  type ActionMoment,
} from '../../../src-core/recurrence/action-log.ts';
import { hoursWithin, type PrintedStretch } from '../../../src-core/recurrence/print-hours.ts';
import { dayAfter, type ShopCalendar } from '../../../src-core/recurrence/shop-calendar.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { appendActionEvent, insertAction, listActions } from '../../casebook/action.repository.ts';
import { listPrinters } from '../../casebook/printer.repository.ts';
import { listSpools } from '../../casebook/spool.repository.ts';
import { groupsBy, readClosedCases, type ShopRecords } from '../closed-cases.ts';
import type { Handler } from '../dispatcher.ts';
import type { ApplicationContext } from '../application-context.ts';
import { readPrintedHours } from '../printed-hours.ts';
import { DomainError } from '../domain-error.ts';
import { readCalendar } from './recurrence.ts';

const DAY_MS = 24 * 3_600_000;
/** What lies further back than this before an action says little of how it was just before. */
const DAYS_BEFORE = 365;
/** Print hours a day are taken from so many days of late. */
const DAYS_OF_LATE = 60;

export const actionList: Handler<'action:list'> = (program) => readActions(program);

export const actionCountDue: Handler<'action:count-due'> = async (program) => {
  const today = await todayIn(program);
  const stored = await listActions(program.casebook.db);
  const due = stored.flatMap(({ log }) => {
    const moment = actionFrom(log, today);
    return moment?.state === 'open' && moment.plan.dueOn !== null && moment.plan.dueOn <= today
      ? [moment]
      : [];
  });
  return { due: due.length };
};

export const actionOpen: Handler<'action:open'> = async (program, { plan, then }) => {
  const { db } = program.casebook;
  const today = await todayIn(program);
  const fault = then === null ? null : faultOfActionEvent({ state: 'open' }, then, today);
  if (fault !== null) throw new DomainError('refused', fault);
  const at = program.now().toISOString();
  // Looked up and written in one go: a double click finds the first one there.
  const isThere = await db.transaction().execute(async (trx) => {
    const same = (await listActions(trx)).some(({ log }) => {
      const moment = actionFrom(log, today);
      return moment !== null && moment.state !== 'done' && isSame(moment.plan, plan);
    });
    if (same) return true;
    await insertAction(trx, program.newId(), [
      { seq: 1, at, event: { kind: 'opened', plan } },
      ...(then === null ? [] : [{ seq: 2, at, event: then }]),
    ]);
    return false;
  });
  if (isThere) throw new DomainError('stale', refusals.actionThere(), await readActions(program));
  return readActions(program);
};

export const actionLog: Handler<'action:log'> = async (program, { actionId, event, revision }) => {
  const { db } = program.casebook;
  const today = await todayIn(program);
  const stored = (await listActions(db)).find((one) => one.actionId === actionId);
  const moment = stored ? actionFrom(stored.log, today) : null;
  if (!stored || !moment) throw new DomainError('not-found', refusals.noSuchAction());
  if (stored.revision !== revision) return refuseStale(program);
  const fault = faultOfActionEvent(moment, event, today);
  if (fault !== null) throw new DomainError('refused', fault);
  const logged = { seq: revision + 1, at: program.now().toISOString(), event };
  if ((await appendActionEvent(db, actionId, logged)) === 'stale') return refuseStale(program);
  return readActions(program);
};

async function refuseStale(program: ApplicationContext): Promise<never> {
  throw new DomainError('stale', refusals.actionMovedOn(), await readActions(program));
}

/** The same finding, or the same words where it is about none. */
function isSame(a: ActionPlan, b: ActionPlan): boolean {
  if (a.about === null || b.about === null) return a.about === b.about && a.title === b.title;
  return a.about.by === b.about.by && a.about.where === b.about.where && a.about.what === b.about.what;
}

async function todayIn(program: ApplicationContext): Promise<string> {
  return (await readCalendar(program)).wallTime(program.now().getTime()).day;
}

async function readActions(program: ApplicationContext) {
  const { db } = program.casebook;
  const calendar = await readCalendar(program);
  const today = calendar.wallTime(program.now().getTime()).day;
  const stored = await listActions(db);
  const { stretches } = await readPrintedHours(db, program.now());
  const records = { printers: await listPrinters(db), spools: await listSpools(db) };
  const actions: Action[] = [];
  for (const { actionId, log, revision, isDemo } of stored) {
    const moment = actionFrom(log, today);
    if (!moment) continue;
    const { plan, ...rest } = moment;
    actions.push({
      actionId,
      revision,
      ...plan,
      ...rest,
      due: dueOf(moment, today),
      effect: await effectFor(program, moment, calendar, stretches, records),
      isDemo,
    });
  }
  return {
    actions: actions.sort((a, b) => orderOf(a).localeCompare(orderOf(b))),
    unreadable: stored.reduce((sum, one) => sum + one.unreadable, 0),
    today,
  };
}

const STATE_ORDER: Readonly<Record<Action['state'], string>> = {
  open: '0',
  snoozed: '1',
  done: '2',
  dismissed: '3',
};

function orderOf({ state, dueOn, openedAt }: Action): string {
  return `${STATE_ORDER[state]} ${dueOn ?? '9999'} ${openedAt}`;
}

/** Cases and print hours of what an action was about, in the year before it and since. */
async function effectFor(
  program: ApplicationContext,
  { plan, doneOn }: ActionMoment,
  calendar: ShopCalendar,
  stretches: ReadonlyMap<string, readonly PrintedStretch[]>,
  records: ShopRecords,
): Promise<ActionEffect | null> {
  const { about } = plan;
  if (about === null || doneOn === null) return null;
  const groups = groupsBy(about.by, program.knowledge, records.printers, records.spools);
  const fromMs = calendar.startOf(dayAfter(doneOn, -DAYS_BEFORE));
  // The day itself counts on neither side: what came on it may be from before or after.
  const doneMs = calendar.startOf(doneOn);
  const sinceMs = calendar.startOf(dayAfter(doneOn, 1));
  const nowMs = program.now().getTime();
  const { cases } = await readClosedCases(program, groups, records, calendar, fromMs, nowMs);
  const own = cases.filter(
    (one) =>
      (about.where === null || one.where === about.where) &&
      (about.what === ANY_FAULT ||
        (about.by === 'practice' ? one.practice === about.what : one.causes.includes(about.what))),
  );
  const printers = about.where === null ? undefined : groups.printersOf?.get(about.where);
  const printed = printers
    ? printers.flatMap((id) => stretches.get(id) ?? [])
    : [...stretches.values()].flat();
  const counted = (from: number, to: number) => ({
    count: own.filter(({ openedMs }) => openedMs >= from && openedMs < to).length,
    exposure: hoursWithin(printed, from, to),
  });
  return effectOf({
    before: counted(fromMs, doneMs),
    after: counted(sinceMs, nowMs),
    expectedRatio: plan.expectedRatio,
    hoursPerDay: hoursWithin(printed, nowMs - DAYS_OF_LATE * DAY_MS, nowMs) / DAYS_OF_LATE,
    nowMs,
  });
}
