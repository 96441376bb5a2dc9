import type { CaseEvent, Intake } from '../contract/case-event.ts';
import { initialsSchema, labelSchema, noteSchema, tagSchema } from '../contract/common.ts';
import type { SpreadsheetField } from '../contract/spreadsheet-choices.ts';
import { LONGEST_TAG, MOST_TAGS } from '../contract/tag-limits.ts';
import type { SpreadsheetMapping, UnknownWord } from '../contract/spreadsheet-view.ts';
import type { ShopCalendar } from '../recurrence/shop-calendar.ts';
import { faults } from '../words/en/faults.ts';
import { clipped } from '../words/clipped.ts';
import { importFaults } from '../words/en/import-faults.ts';
import type { Message } from '../words/message.ts';
import type { LoggedEvent } from '../session/logged-event.ts';
import { withTags } from '../session/tags.ts';
import { amountInCell, timeInCell } from './cell-values.ts';
import { keyOf, type GuideWords } from './guide-words.ts';
import type { SheetRow } from './read-rows.ts';

/** What rows are read with. */
export interface RowReader {
  readonly mapping: SpreadsheetMapping;
  readonly words: GuideWords;
  /** Ids of printers and spools by their name in lower case. */
  readonly printers: ReadonlyMap<string, string>;
  readonly spools: ReadonlyMap<string, string>;
  readonly calendar: ShopCalendar;
  readonly nowMs: number;
}

export interface ReadRow {
  readonly line: number;
  readonly log: readonly LoggedEvent[];
  /** What tells the row from all others: its reference, or everything in it. */
  readonly identity: string;
}

export type RowResult =
  | { readonly read: ReadRow }
  | { readonly line: number; readonly fault: Message; readonly unknown: readonly UnknownPlace[] };

type UnknownPlace = Pick<UnknownWord, 'field' | 'text'>;

/** A case of old is entered so long after it was opened, where the sheet says no end. */
const UNTIL_CLOSED_MS = 60_000;
const EARLIEST = Date.UTC(1990, 0, 1);
/** As `noteSchema` has it. */
const LONGEST_TEXT = 2000;

/** The closed case that a row tells of, or everything that is wrong with the row. */
export function readRow(row: SheetRow, reader: RowReader): RowResult {
  const { mapping, words, calendar } = reader;
  const wrong: Message[] = row.fault === null ? [] : [row.fault];
  const unknown: UnknownPlace[] = [];
  const cell = (field: SpreadsheetField) => row.cells.get(mapping.columns[field] ?? '') ?? '';
  const quoted = (field: SpreadsheetField) => ({ text: clipped(cell(field)) });
  const need = (field: SpreadsheetField, fault: Message) => {
    if (cell(field) === '') wrong.push(fault);
  };
  const timeOf = (field: SpreadsheetField): number | null => {
    if (cell(field) === '') return null;
    const time = timeInCell(cell(field), mapping.dateOrder, calendar);
    if ('fault' in time) wrong.push(time.fault);
    else if (time.value > reader.nowMs) wrong.push(importFaults.stillToCome(quoted(field)));
    else if (time.value < EARLIEST) wrong.push(importFaults.checkYear(quoted(field)));
    else return time.value;
    return null;
  };
  const amountOf = (field: SpreadsheetField, times: number, most: number): number => {
    if (cell(field) === '') return 0;
    const amount = amountInCell(cell(field));
    if ('fault' in amount) wrong.push(amount.fault);
    else if (amount.value * times > most) wrong.push(importFaults.amountPastAll(quoted(field)));
    else return amount.value * times;
    return 0;
  };
  const named = (field: 'printer' | 'spool', known: ReadonlyMap<string, string>): string | null => {
    if (cell(field) === '') return null;
    const id = known.get(keyOf(cell(field)));
    if (id === undefined && field === 'printer') wrong.push(importFaults.noPrinter(quoted(field)));
    return id ?? null;
  };

  need('opened', importFaults.dateMissing());
  need('complaint', importFaults.wrongMissing());
  need('cause', importFaults.causeMissing());
  const openedMs = timeOf('opened');
  const closedMs = timeOf('closed');
  if (openedMs !== null && closedMs !== null && closedMs < openedMs) wrong.push(importFaults.closedFirst());
  const printerId = named('printer', reader.printers);
  const spoolId = named('spool', reader.spools);
  const complaints = listIn(cell('complaint'), (text) => {
    const id = mapping.complaints[keyOf(text)] ?? words.complaint(text);
    return id ?? null;
  });
  for (const text of complaints.unknown) unknown.push({ field: 'complaint', text });
  const causes = listIn(cell('cause'), (text) => {
    const chosen = mapping.causes[keyOf(text)];
    if (chosen === null) return { named: text };
    const id = chosen ?? words.cause(text);
    return id === null ? null : { cause: id };
  });
  for (const text of causes.unknown) unknown.push({ field: 'cause', text });
  for (const { field, text } of unknown)
    wrong.push(
      (field === 'complaint' ? importFaults.unknownComplaint : importFaults.unknownCause)({
        text: clipped(text),
      }),
    );
  const tooLongName = causes.found.find((one) => 'named' in one && !labelSchema.safeParse(one.named).success);
  if (tooLongName) wrong.push(importFaults.causeTooLong());
  const minutesLost = amountOf('lost', mapping.lostUnit === 'hours' ? 60 : 1, 100_000);
  const gramsScrapped = amountOf('grams', 1, 1_000_000);
  const by = initialsSchema.nullable().safeParse(cell('openedBy') || null);
  if (!by.success) wrong.push(importFaults.noInitials(quoted('openedBy')));
  const profile = labelSchema.optional().safeParse(cell('profile') || undefined);
  if (!profile.success) wrong.push(importFaults.profileTooLong());
  const tags = withTags(
    [],
    cell('tags')
      .split(/\s*[;,]\s*/)
      .filter(Boolean),
    [],
  );
  if (tags.length > MOST_TAGS) wrong.push(importFaults.mostTags({ most: MOST_TAGS }));
  const longTag = tags.find((tag) => !tagSchema.safeParse(tag).success);
  if (longTag !== undefined)
    wrong.push(importFaults.tagTooLong({ text: clipped(longTag), most: LONGEST_TAG }));
  // A spool that the shop does not have is noted under the sheet's own heading.
  const unplaced =
    spoolId === null && cell('spool') !== '' ? `${mapping.columns.spool ?? ''}: ${cell('spool')}. ` : '';
  const note = noteSchema.safeParse(`${unplaced}${cell('note')}`);
  const said = noteSchema.safeParse(cell('complaint'));
  if (!note.success || !said.success) wrong.push(importFaults.textTooLong({ count: LONGEST_TEXT }));

  if (
    wrong.length > 0 ||
    openedMs === null ||
    !by.success ||
    !profile.success ||
    !note.success ||
    !said.success
  )
    return { line: row.line, fault: faults.several({ all: { series: wrong } }), unknown };
  const intake: Intake = {
    printerId,
    spoolId,
    openedBy: by.data,
    ...(profile.data !== undefined && { profile: profile.data }),
    conditions: {},
    complaints: [...new Set(complaints.found)].map((observation) => ({ observation, value: 'present' })),
    words: said.data,
  };
  const endMs = Math.max(closedMs ?? 0, openedMs + UNTIL_CLOSED_MS);
  const tagged: CaseEvent = { kind: 'tagged', on: [...tags], off: [] };
  const events: readonly (readonly [number, CaseEvent])[] = [
    [openedMs, { kind: 'opened', intake }],
    // A case of old, as the sheet has it: nobody was asked.
    [openedMs, { kind: 'danger-answered', present: [] }],
    [
      endMs,
      { kind: 'closed', causes: causes.found, practice: null, minutesLost, gramsScrapped, note: note.data },
    ],
    ...(tags.length > 0 ? ([[endMs, tagged]] as const) : []),
  ];
  return {
    read: {
      line: row.line,
      log: events.map(([ms, event], i) => ({ seq: i + 1, at: new Date(ms).toISOString(), event })),
      identity:
        cell('reference') === ''
          ? JSON.stringify([
              openedMs,
              keyOf(cell('printer')),
              keyOf(cell('complaint')),
              keyOf(cell('cause')),
              cell('lost'),
              cell('grams'),
              cell('note'),
            ])
          : `reference ${keyOf(cell('reference'))} of ${openedMs}`,
    },
  };
}

/** What a cell names: as a whole, or several parted by semicolon, comma, slash or "and". */
function listIn<T extends string | object>(
  text: string,
  read: (part: string) => T | null,
): { readonly found: T[]; readonly unknown: string[] } {
  if (text === '') return { found: [], unknown: [] };
  const whole = read(text);
  if (whole !== null) return { found: [whole], unknown: [] };
  const parts = text
    .split(/\s*[;,/+]\s*|\s+and\s+/)
    .map((part) => part.trim())
    .filter(Boolean);
  const found = parts.map(read);
  // Only where every part is known: half a complaint would be another one.
  if (parts.length > 1 && parts.length <= 4 && found.every((one) => one !== null))
    return { found: found.filter((one): one is NonNullable<typeof one> => one !== null), unknown: [] };
  return { found: [], unknown: [text] };
}
