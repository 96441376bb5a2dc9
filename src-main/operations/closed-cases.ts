import { CONDITION } from '../../src-core/contract/relied-on-conditions.ts';
import type { Grouping } from '../../src-core/contract/recurrence-choices.ts';
import type { Printer, Spool } from '../../src-core/contract/shop-records.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { ClosedCase } from '../../src-core/recurrence/report.ts';
import type { ShopCalendar } from '../../src-core/recurrence/shop-calendar.ts';
import { eventsInForce } from '../../src-core/session/logged-event.ts';
import { choiceLabel } from '../../src-core/session/wording.ts';
import { findingTexts } from '../../src-core/words/en/findings.ts';
import type { Words } from '../../src-core/words/message.ts';
import {
  listCauseLabels,
  listClosedCauses,
  listClosedMentioning,
  type ClosedCaseField,
} from '../casebook/case-list.repository.ts';
import { readLog } from '../casebook/case.repository.ts';
import type { ApplicationContext } from './application-context.ts';

/** What the cases of a shop are named and grouped by. */
export interface ShopRecords {
  readonly printers: readonly Printer[];
  readonly spools: readonly Spool[];
}

const { m } = findingTexts;

/** Shifts by the hour at which a case was opened, on the shop's clock. */
const SHIFTS = [
  { id: 'early', label: m.earlyShift(), from: 6, to: 14 },
  { id: 'late', label: m.lateShift(), from: 14, to: 22 },
  { id: 'night', label: m.nightShift(), from: 22, to: 6 },
] as const;

/** What is known of the groups that cases are held against each other by. */
export interface Groups {
  readonly by: Grouping;
  /** The printers whose hours are a group's own, where groups are made of printers. */
  readonly printersOf: ReadonlyMap<string, readonly string[]> | null;
  label(where: string): Words;
}

export interface ClosedCases {
  readonly cases: readonly ClosedCase[];
  /** What causes that the guide does not have were called when cases were closed with them. */
  readonly causeLabels: ReadonlyMap<string, string>;
}

export function groupsBy(
  by: Grouping,
  knowledge: Knowledge,
  printers: readonly Printer[],
  spools: readonly Spool[],
): Groups {
  const printerLabel = (id: string) => printers.find((one) => one.id === id)?.label ?? '';
  const spoolLabel = (id: string) => spools.find((one) => one.id === id)?.label ?? '';
  switch (by) {
    case 'printer':
    case 'practice':
      return { by, printersOf: new Map(printers.map(({ id }) => [id, [id]])), label: printerLabel };
    case 'nozzle': {
      const known = printers.flatMap((one) => {
        const group = nozzleOf(knowledge, one);
        return group === null ? [] : [{ group, id: one.id }];
      });
      const printersOf = new Map(
        [...Map.groupBy(known, ({ group }) => group)].map(([group, own]) => [group, own.map(({ id }) => id)]),
      );
      return { by, printersOf, label: (where) => where };
    }
    case 'spool':
      return { by, printersOf: null, label: spoolLabel };
    case 'change':
      return {
        by,
        printersOf: null,
        label: (where) => choiceLabel(knowledge, CONDITION.lastChange, where),
      };
    case 'shift':
      return {
        by,
        printersOf: null,
        label: (where) => SHIFTS.find(({ id }) => id === where)?.label ?? where,
      };
    case 'month':
      return {
        by,
        printersOf: null,
        label: (where) => m.monthOfAnyYear({ month: { month: where } }),
      };
    case 'material':
    case 'batch':
    case 'profile':
      return { by, printersOf: null, label: (where) => where };
  }
}

/** Closed cases of a time (ms since 1970), each with its group. */
export async function readClosedCases(
  { casebook, knowledge }: ApplicationContext,
  groups: Groups,
  records: ShopRecords,
  calendar: ShopCalendar,
  fromMs: number,
  toMs: number,
): Promise<ClosedCases> {
  const { db } = casebook;
  const [from, to] = [new Date(fromMs).toISOString(), new Date(toMs).toISOString()];
  const rows = await listClosedCauses(db, from, to, FIELDS_FOR[groups.by] ?? []);
  const changes = groups.by === 'change' ? await lastChanges(db, from, to) : new Map<string, string>();
  const spools = new Map(records.spools.map((one) => [one.id, one]));
  const printers = new Map(records.printers.map((one) => [one.id, one]));
  const whereOf = (row: (typeof rows)[number], printerId: string | null): string | null => {
    const { caseId = '', spoolId = null, profile = '', openedAt } = row;
    const spool = () => spools.get(spoolId ?? '');
    const wall = () => calendar.wallTime(Date.parse(openedAt));
    switch (groups.by) {
      case 'printer':
      case 'practice':
        return printerId;
      case 'nozzle': {
        const printer = printers.get(printerId ?? '');
        return printer ? nozzleOf(knowledge, printer) : null;
      }
      case 'spool':
        return spoolId;
      case 'material': {
        const own = spool();
        return own ? materialOf(knowledge, own) : null;
      }
      case 'batch': {
        const own = spool();
        return own?.batch ? `${own.supplier} ${own.batch}`.trim() : null;
      }
      case 'profile':
        return profile || null;
      case 'change':
        return changes.get(caseId) ?? null;
      case 'shift': {
        const { hour } = wall();
        return (
          SHIFTS.find(({ from: first, to: last }) =>
            first < last ? hour >= first && hour < last : hour >= first || hour < last,
          )?.id ?? null
        );
      }
      case 'month':
        return wall().day.slice(5, 7);
    }
  };
  const cases: ClosedCase[] = [];
  const { listOf, causes } = causeLists();
  const sameText = sameTexts();
  const momentOf = momentsByDay();
  for (const row of rows) {
    const last = cases.at(-1);
    // Rows of one case follow each other.
    if (row.position > 0 && last) {
      cases[cases.length - 1] = { ...last, causes: [...last.causes, ...listOf(row.cause)] };
      continue;
    }
    const printerId = sameText(row.printerId);
    cases.push({
      openedMs: momentOf(row.openedAt),
      printerId,
      causes: listOf(row.cause),
      practice: sameText(row.practice),
      minutesLost: row.minutesLost,
      gramsScrapped: row.gramsScrapped,
      where: whereOf(row, printerId),
    });
  }
  const unknown = [...causes()].filter((cause) => !knowledge.causes.has(cause));
  return { cases, causeLabels: await listCauseLabels(db, unknown) };
}

/** Whether cases are grouped by what the records of their spools say. */
export function needsSpools(by: Grouping): boolean {
  return FIELDS_FOR[by]?.includes('spool_id') ?? false;
}

const FIELDS_FOR: Readonly<Partial<Record<Grouping, readonly ClosedCaseField[]>>> = {
  spool: ['spool_id'],
  material: ['spool_id'],
  batch: ['spool_id'],
  profile: ['profile'],
  change: ['id'],
};

/** {@link Date.parse} of a stored time; rows come by day, and of each day only the first is read as a date. */
function momentsByDay(): (time: string) => number {
  let day = '';
  let dayMs = NaN;
  const two = (time: string, at: number) => (time.charCodeAt(at) - 48) * 10 + time.charCodeAt(at + 1) - 48;
  return (time) => {
    // "2026-11-27T18:19:46.123Z", as the host writes it; an import may have brought another form.
    if (time.length !== 24) return Date.parse(time);
    if (!time.startsWith(day) || day === '')
      [day, dayMs] = [time.slice(0, 11), Date.parse(time.slice(0, 10))];
    const thousandths = (time.charCodeAt(20) - 48) * 100 + two(time, 21);
    return dayMs + two(time, 11) * 3_600_000 + two(time, 14) * 60_000 + two(time, 17) * 1000 + thousandths;
  };
}

/** Most cases have one cause, of few: the list of each is made once. `causes` are all that lists were made of. */
function causeLists() {
  const lists = new Map<string, readonly string[]>();
  return {
    listOf(cause: string): readonly string[] {
      let list = lists.get(cause);
      if (!list) lists.set(cause, (list = [cause]));
      return list;
    },
    causes: () => lists.keys(),
  };
}

/** For each text the first one that read the same: a hundred thousand rows name few printers, and one text is soon told from others. */
function sameTexts(): (text: string | null) => string | null {
  const known = new Map<string, string>();
  return (text) => {
    if (text === null) return null;
    const same = known.get(text);
    if (same === undefined) known.set(text, text);
    return same ?? text;
  };
}

/** "0.4 mm brass, all-metal", as far as the printer's record says it. */
function nozzleOf(knowledge: Knowledge, { conditions }: Printer): string | null {
  const size = conditions[CONDITION.nozzleMm];
  const parts = [CONDITION.nozzleMaterial, CONDITION.hotEnd].flatMap((id) => {
    const value = conditions[id];
    return value === undefined ? [] : [lowerFirst(choiceLabel(knowledge, id, String(value)))];
  });
  const [material, ...rest] = parts;
  const first = [size === undefined ? null : `${size} mm`, material].filter(Boolean).join(' ');
  return [first, ...rest].filter(Boolean).join(', ') || null;
}

/** "Brass" as "brass", but "PTFE tube" as it is. */
function lowerFirst(label: string): string {
  return /^.[a-z]/.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;
}

function materialOf(knowledge: Knowledge, { polymer, filler }: Spool): string {
  const base = choiceLabel(knowledge, CONDITION.polymer, polymer);
  return filler === 'none'
    ? base
    : `${base}, ${choiceLabel(knowledge, CONDITION.filler, filler).toLowerCase()}`;
}

/** What was changed last before each case, where somebody said. Logs are read only where they mention it. */
async function lastChanges(
  db: ApplicationContext['casebook']['db'],
  from: string,
  to: string,
): Promise<ReadonlyMap<string, string>> {
  const changes = new Map<string, string>();
  for (const caseId of await listClosedMentioning(db, CONDITION.lastChange, from, to)) {
    for (const { event } of eventsInForce(await readLog(db, caseId))) {
      const said =
        event.kind === 'opened'
          ? event.intake.conditions[CONDITION.lastChange]
          : event.kind === 'condition-set' && event.condition === CONDITION.lastChange
            ? event.value
            : undefined;
      if (said === null) changes.delete(caseId);
      else if (typeof said === 'string' && said !== 'nothing') changes.set(caseId, said);
    }
  }
  return changes;
}
