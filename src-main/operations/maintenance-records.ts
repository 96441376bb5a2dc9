import type { MaintenancePlan } from '../../src-core/contract/maintenance-view.ts';
import type { Printer } from '../../src-core/contract/shop-records.ts';
import { plannedTasks, type PlannedTask } from '../../src-core/maintenance/due-tasks.ts';
import {
  counterStretches,
  entriesOf,
  type MaintenanceEntry,
} from '../../src-core/maintenance/maintenance-log.ts';
import type { PrinterUse } from '../../src-core/maintenance/printer-use.ts';
import { spoolsOnPrinter } from '../../src-core/maintenance/spools-on-printer.ts';
import { printedStretches } from '../../src-core/recurrence/print-hours.ts';
import {
  NO_MAINTENANCE,
  readMaintenanceLogs,
  spoolsEverOnPrinters,
  type MaintenanceLog,
} from '../casebook/maintenance.repository.ts';
import { listHourReadings } from '../casebook/printer.repository.ts';
import { readMaintenancePlan } from '../casebook/shop-setting.repository.ts';
import { readSpoolLog } from '../casebook/spool-event.repository.ts';
import { listSpools } from '../casebook/spool.repository.ts';
import type { ApplicationContext } from './application-context.ts';

/** Everything that is known of a printer's maintenance. */
export interface MaintenanceOfPrinter {
  readonly printer: Printer;
  readonly log: MaintenanceLog;
  readonly entries: readonly MaintenanceEntry[];
  readonly planned: readonly PlannedTask[];
  readonly use: PrinterUse;
  /** The first reading of its meter: from then on it is counted. */
  readonly beginMs: number;
}

/** Reads what maintenance of these printers rests on. */
export async function readMaintenance(
  program: ApplicationContext,
  printers: readonly Printer[],
): Promise<{
  readonly of: readonly MaintenanceOfPrinter[];
  readonly plan: MaintenancePlan;
  readonly planRevision: number;
}> {
  const { casebook, knowledge } = program;
  const { db } = casebook;
  const nowMs = program.now().getTime();
  const [only] = printers.length === 1 ? printers : [];
  const logs = await readMaintenanceLogs(db, only?.id ?? null);
  const readings = Map.groupBy(await listHourReadings(db), ({ printerId }) => printerId);
  const { value: plan, revision: planRevision } = await readMaintenancePlan(db);
  const spools = await spoolsWithLogs(program);
  return {
    of: printers.map((printer) => {
      const log = logs.get(printer.id) ?? NO_MAINTENANCE;
      const entries = entriesOf(log.events);
      const own = readings.get(printer.id) ?? [];
      const takesOne = !['multi-material-unit', 'several-tools', 'tools-and-unit'].includes(
        String(printer.conditions['tools'] ?? ''),
      );
      return {
        printer,
        log,
        entries,
        planned: plannedTasks(knowledge, plan, printer),
        use: {
          hours: printedStretches(own).get(printer.id) ?? [],
          prints: counterStretches(entries, 'prints'),
          metres: counterStretches(entries, 'metres'),
          spools: spoolsOnPrinter(printer.id, spools, takesOne, nowMs),
        },
        beginMs: Math.min(nowMs, ...own.map(({ at }) => Date.parse(at))),
      };
    }),
    plan,
    planRevision,
  };
}

async function spoolsWithLogs({ casebook: { db } }: ApplicationContext) {
  const ids = await spoolsEverOnPrinters(db);
  if (ids.length === 0) return [];
  const fillers = new Map((await listSpools(db)).map(({ id, filler }) => [id, filler]));
  const spools = [];
  for (const id of ids)
    spools.push({ filler: fillers.get(id) ?? 'none', log: (await readSpoolLog(db, id)).events });
  return spools;
}
