import { dsvFormat } from 'd3-dsv';
import { importFaults } from '../words/en/import-faults.ts';
import type { Message } from '../words/message.ts';

export interface SheetRow {
  /** Line of the file at which it begins, from 1. */
  readonly line: number;
  /** Cells by the column's name, trimmed. */
  readonly cells: ReadonlyMap<string, string>;
  /** What is wrong with its form, or null. */
  readonly fault: Message | null;
}

export interface Sheet {
  readonly columns: readonly string[];
  readonly rows: readonly SheetRow[];
}

const DELIMITERS = [',', ';', '\t'] as const;

/**
 * Reads a table with its columns' names in the first line, parted by commas, semicolons or tabs, whichever parts that line
 * most. Rows without any text are passed over. A column without a name, or with one that came before, is called by its place.
 */
export function readSheet(text: string): Sheet {
  const body = text
    .replace(/^\ufeff/, '')
    .replaceAll('\r\n', '\n')
    .replaceAll('\r', '\n');
  const firstLine = body.slice(0, body.indexOf('\n') < 0 ? undefined : body.indexOf('\n'));
  const delimiter = DELIMITERS.toSorted((a, b) => partsOf(firstLine, b) - partsOf(firstLine, a))[0] ?? ',';
  const [head = [], ...lines] = dsvFormat(delimiter).parseRows(body);
  const columns = namesOf(head);
  let line = 1 + linesIn(head);
  const rows = lines.flatMap((cells): SheetRow[] => {
    const at = line;
    line += linesIn(cells);
    if (cells.every((cell) => cell.trim() === '')) return [];
    const beyond = cells.slice(columns.length).some((cell) => cell.trim() !== '');
    return [
      {
        line: at,
        cells: new Map(columns.map((name, i) => [name, (cells[i] ?? '').trim()])),
        fault: beyond ? importFaults.moreCells({ cells: cells.length, columns: columns.length }) : null,
      },
    ];
  });
  return { columns, rows };
}

function partsOf(line: string, delimiter: string): number {
  return line.split(delimiter).length;
}

/** A cell in quotes may go over several lines. */
function linesIn(cells: readonly string[]): number {
  return 1 + cells.reduce((sum, cell) => sum + (cell.match(/\n/g)?.length ?? 0), 0);
}

function namesOf(head: readonly string[]): string[] {
  const names: string[] = [];
  for (const [i, cell] of head.entries()) {
    const name = cell.trim().slice(0, 300);
    names.push(name === '' || names.includes(name) ? nameOfPlace(i + 1) : name);
  }
  return names;
}

/** What a column without a name of its own is remembered by; `place` counts from 1. */
export function nameOfPlace(place: number): string {
  return `Column ${place}`;
}
