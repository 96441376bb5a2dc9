import { readFileSync } from 'node:fs';
import path from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { parse } from 'yaml';
import { demoShopSchema, type DemoShop } from '../../../src-core/training/demo-shop.ts';
import type { LaterActionEvent } from '../../../src-core/contract/action-view.ts';
import { dayAfter } from '../../../src-core/recurrence/shop-calendar.ts';
import { causeLabel } from '../../../src-core/session/wording.ts';
import type { Shop } from '../../../src-core/contract/shop-records.ts';
import type { Watch } from '../../../src-core/contract/watch.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { inEnglish } from '../../../src-core/words/in-english.ts';
import type { CasebookDb } from '../../casebook/casebook.ts';
import { insertMaintenance } from '../../casebook/maintenance.repository.ts';
import { insertAction } from '../../casebook/action.repository.ts';
import { insertCase } from '../../casebook/case.repository.ts';
import { removeDemoRecords } from '../../casebook/demo.repository.ts';
import { savePerson } from '../../casebook/person.repository.ts';
import { saveHourReading, savePrinter } from '../../casebook/printer.repository.ts';
import { saveSpool } from '../../casebook/spool.repository.ts';
import { topCauseOf } from '../case-reader.ts';
import { projectCase } from '../case-projection.ts';
import type { Handler } from '../dispatcher.ts';
import type { ApplicationContext } from '../application-context.ts';
import { DomainError } from '../domain-error.ts';
import { readCalendar } from './recurrence.ts';
import { readShop } from './shop.ts';

const DAY_MS = 24 * 3_600_000;
const MONTH_MS = (365.25 / 12) * 24 * 3600 * 1000;

/** Of the work, drawing the cases is about this share; the rest is reasoning about each and writing it. */
const DRAWING_SHARE = 0.3;

const DEMO_SHOP = 'the demo shop';

export const demoLoad: Handler<'demo:load'> = (program, { workId }) =>
  program.work.runAlone(DEMO_SHOP, refusals.demoUnderWay(), async () => {
    const shop = await readShop(program);
    if (shop.hasDemo) throw new DomainError('refused', refusals.demoThere());
    return program.work.run(workId, async (watch) => {
      try {
        return await loadDemo(program, watch);
      } catch (error) {
        // Half a demo shop is no demo shop.
        await removeDemoRecords(program.casebook.db);
        throw error;
      }
    });
  });

async function loadDemo(program: ApplicationContext, watch: Watch): Promise<Shop> {
  const demo = readDemoShop(program.resourcesFolder);
  const endMs = program.now().getTime();
  const ids = await saveRecords(program, demo, endMs);
  const { knowledge, casebook } = program;
  const drawing = { ...watch, onProgress: (share: number) => watch.onProgress(DRAWING_SHARE * share) };
  const cases = await program.reasoner.runWatched('demo-cases', drawing, demo, ids, endMs);
  for (const [order, one] of cases.entries()) {
    // The casebook writes without waiting: other calls get their turn between the cases.
    await setImmediate();
    watch.signal.throwIfAborted();
    watch.onProgress(DRAWING_SHARE + ((1 - DRAWING_SHARE) * order) / cases.length);
    const { moment, noPlaceFor } = program.flow.replay(one.log);
    const [misfit] = noPlaceFor;
    if (misfit) throw new Error(`demo event ${misfit.seq}: ${inEnglish(misfit.reason)}`);
    const { record, causes } = projectCase({
      caseId: program.newId(),
      knowledge,
      log: one.log,
      moment,
      topCause: await topCauseOf(program, moment),
      engineVersion: program.engineVersion,
      isDemo: true,
    });
    await casebook.db.transaction().execute((trx) => insertCase(trx, one.log, record, causes));
  }
  await saveActions(program, demo, ids.printers);
  return readShop(program);
}

export const demoRemove: Handler<'demo:remove'> = (program) =>
  program.work.runAlone(DEMO_SHOP, refusals.demoUnderWay(), async () => {
    await removeDemoRecords(program.casebook.db);
    return readShop(program);
  });

function readDemoShop(resourcesFolder: string): DemoShop {
  return demoShopSchema.parse(parse(readFileSync(path.join(resourcesFolder, 'demo-shop.yaml'), 'utf8')));
}

async function saveRecords(
  program: ApplicationContext,
  demo: DemoShop,
  endMs: number,
): Promise<{ printers: string[]; spools: string[] }> {
  const { db } = program.casebook;
  for (const person of demo.people) {
    await savePerson(db, { ...person, id: program.newId(), isRetired: false, isDemo: true });
  }
  const printers: string[] = [];
  for (const printer of demo.printers) {
    const id = program.newId();
    const { label, model, note, conditions } = printer;
    const startHours = 400;
    const yearHours = printer.hoursPerMonth * 12;
    const startAt = new Date(endMs - 12 * MONTH_MS).toISOString();
    await savePrinter(
      db,
      { id, label, model, note, conditions, printHours: startHours, isRetired: false, isDemo: true },
      startAt,
    );
    await saveHourReading(db, id, new Date(endMs).toISOString(), startHours + yearHours);
    await saveMaintenance(db, demo, label, id, endMs);
    printers.push(id);
  }
  const spools: string[] = [];
  for (const spool of demo.spools) {
    const id = program.newId();
    await saveSpool(db, {
      id,
      label: spool.label,
      polymer: spool.polymer,
      filler: spool.filler,
      fillerPercent: spool.fillerPercent ?? null,
      storage: spool.storage,
      openedAt: new Date(endMs - 2 * MONTH_MS).toISOString(),
      filamentDiameterMm: 1.75,
      filamentGrams: 1000,
      body: 'plastic',
      supplier: spool.supplier,
      batch: spool.batch,
      tareGrams: null,
      note: '',
      isRetired: false,
      isDemo: true,
    });
    spools.push(id);
  }
  return { printers, spools };
}

/** What was done to keep a printer well, oldest first. */
async function saveMaintenance(
  db: CasebookDb,
  demo: DemoShop,
  label: string,
  printerId: string,
  endMs: number,
): Promise<void> {
  const own = demo.maintenance.filter(({ printer }) => printer === label);
  for (const [index, { task, daysAgo, by, part }] of own.toSorted((a, b) => b.daysAgo - a.daysAgo).entries())
    await insertMaintenance(db, printerId, {
      seq: index + 1,
      at: new Date(endMs - daysAgo * DAY_MS).toISOString(),
      event: { kind: 'done', task, by, part, note: '', reading: null },
    });
}

/** What the invented shop did about what comes back: some of it done, some of it due. */
async function saveActions(
  program: ApplicationContext,
  demo: DemoShop,
  printers: readonly string[],
): Promise<void> {
  const calendar = await readCalendar(program);
  const nowMs = program.now().getTime();
  const today = calendar.wallTime(nowMs).day;
  for (const action of demo.actions) {
    const { title, kind, owner, expectedRatio, printer, cause } = action;
    const place = demo.printers.findIndex(({ label }) => label === printer);
    const at = new Date(nowMs - action.openedDaysAgo * DAY_MS).toISOString();
    const plan = {
      title,
      kind,
      owner,
      expectedRatio,
      dueOn: action.dueInDays === null ? null : dayAfter(today, action.dueInDays),
      about: {
        by: 'printer' as const,
        where: printers[place] ?? null,
        whereLabel: printer,
        what: cause,
        whatLabel: causeLabel(program.knowledge, cause),
      },
    };
    const later: LaterActionEvent[] = [];
    if (action.doneDaysAgo !== undefined)
      later.push({ kind: 'done', on: dayAfter(today, -action.doneDaysAgo) });
    if (action.snoozedForDays !== undefined)
      later.push({ kind: 'snoozed', until: dayAfter(today, action.snoozedForDays) });
    if (action.dismissedBecause !== undefined)
      later.push({ kind: 'dismissed', reason: action.dismissedBecause });
    await program.casebook.db.transaction().execute((trx) =>
      insertAction(
        trx,
        program.newId(),
        [{ kind: 'opened' as const, plan }, ...later].map((event, index) => ({ seq: index + 1, at, event })),
        true,
      ),
    );
  }
}
