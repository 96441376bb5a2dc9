import { csvFormatRows } from 'd3-dsv';
import type { Cell, ReportTable } from './report-document.ts';

/** What a spreadsheet would take for a formula. */
const FORMULA = /^[=+\-@\t\r]/;

/**
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
      (row) => `${JSON.stringify(Object.fromEntries(columns.map(({ key }, i) => [key, row[i] ?? null])))}\n`,
    )
    .join('');
}

function csvCell(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(cell);
  // Line breaks inside a cell would be told apart from those between rows, but few programs do.
  const oneLine = cell.replaceAll(/\s*[\r\n]+\s*/g, ' ');
  return FORMULA.test(oneLine) ? `'${oneLine}` : oneLine;
}
