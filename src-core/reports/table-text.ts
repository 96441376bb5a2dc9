import { csvFormatRows } from 'd3-dsv';
import { english } from '../words/in-english.ts';
import { sayValue } from '../words/say-words.ts';
import type { Message } from '../words/message.ts';
import type { Cell, ReportTable } from './report-document.ts';

/** What a spreadsheet would take for a formula. */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * Tables are for programs: whoever makes one, they are in English and °C, their columns named by keys.
 *
 * A table as CSV (RFC 4180, UTF-8 with a byte order mark, by which spreadsheets know the letters). A text that a spreadsheet
 * would run as a formula gets an apostrophe before it.
 */
export function tableCsv({ columns, rows }: ReportTable): string {
  const head = columns.map(({ key }) => key);
  const lines = rows.map((row) => row.map(csvCell));
  return `\ufeff${csvFormatRows([head, ...lines]).replaceAll('\n', '\r\n')}\r\n`;
}

/** A table as JSON Lines: one object a row, figures as numbers. */
export function tableJsonLines({ columns, rows }: ReportTable): string {
  return rows
    .map(
      (row) =>
        `${JSON.stringify(Object.fromEntries(columns.map(({ key }, i) => [key, plain(row[i] ?? null)])))}\n`,
    )
    .join('');
}

function plain(cell: Cell): string | number | null {
  if (cell === null || typeof cell === 'number') return cell;
  // Names one after the other, as programs part them.
  if (Array.isArray(cell)) return cell.map((one: string | Message) => sayValue(one, english)).join(', ');
  return sayValue(cell, english);
}

function csvCell(cell: Cell): string {
  const text = plain(cell);
  if (text === null) return '';
  if (typeof text === 'number') return String(text);
  // Line breaks inside a cell would be told apart from those between rows, but few programs do.
  const oneLine = text.replaceAll(/\s*[\r\n]+\s*/g, ' ');
  return FORMULA.test(oneLine) ? `'${oneLine}` : oneLine;
}
