import { jobFaults } from '../words/en/job-faults.ts';
import { SaidError } from '../words/said-error.ts';
import { dsvFormat } from 'd3-dsv';
/** The heater of the nozzle, or of the plate, as firmware names them. */
export type Heater = 'T' | 'B';

/** One reading of a heater. Times in s from the first; the number of the reading where the log has none. */
export interface TemperatureReading {
  readonly seconds: number;
  readonly actualC: number;
  readonly targetC: number;
}

export interface TemperatureLog {
  readonly readings: readonly TemperatureReading[];
  /** Lines that could have been readings and were not. */
  readonly skipped: number;
  /** Every reading has a time and they do not go back. */
  readonly hasTimes: boolean;
}

/** A log that holds no readings: says what would be right. */
export class TemperatureLogError extends SaidError {}

/** "T:210.3 /215.0" as common firmware reports the nozzle; "B:" for the plate. */
const REPORT = /\b(T\d?|B):\s*(-?\d+(?:\.\d+)?)\s*\/\s*(-?\d+(?:\.\d+)?)/g;
/** A time at the start of the line: seconds, or a clock. */
const CLOCK = /(?:^|[\sT[])(\d{1,2}):(\d{2}):(\d{2}(?:\.\d+)?)/;
const PLAIN_SECONDS = /^\s*(\d+(?:\.\d+)?)\s*[:,;]?\s/;
const DAY = 86_400;
/** Seconds and °C alike: a clock of thirty years, and more heat than there is. */
const MOST = 1e9;

/**
 * Reads a temperature log: lines with "T:actual /target" (nozzle) or "B:" (plate) as common firmware reports them, with or
 * without a clock before them, or CSV with columns named for time, actual and target. `heater` is "T" or "B".
 */
export function readTemperatureLog(text: string, heater: Heater): TemperatureLog {
  const lines = text.split(/\r?\n/);
  const reported = fromReports(lines, heater);
  if (reported.readings.length > 0) return reported;
  const table = fromTable(lines, heater);
  if (table && table.readings.length > 0) return table;
  const fault = heater === 'T' ? jobFaults.noNozzleReading : jobFaults.noPlateReading;
  throw new TemperatureLogError(fault({ lines: lines.length }));
}

function fromReports(lines: readonly string[], heater: Heater): TemperatureLog {
  const found: Found[] = [];
  let skipped = 0;
  for (const line of lines) {
    let isFound = false;
    for (const [, name, actual, target] of line.matchAll(REPORT)) {
      // T and T0 are the first nozzle.
      if (heater === 'T' ? name !== 'T' && name !== 'T0' : name !== 'B') continue;
      const reading = { clock: clockOf(line), actualC: Number(actual), targetC: Number(target) };
      // A row of hundreds of digits is no number.
      if (!isReading(reading)) break;
      found.push(reading);
      isFound = true;
      break;
    }
    if (!isFound && /\bT\d?:/.test(line)) skipped++;
  }
  return { ...timed(found), skipped };
}

function fromTable(lines: readonly string[], heater: Heater): TemperatureLog | null {
  const header = lines.findIndex((line) => /[,;\t]/.test(line) && /[a-z]/i.test(line));
  if (header < 0) return null;
  const separator = lines[header]?.match(/[,;\t]/)?.[0] ?? ',';
  const names = cellsOf(lines[header] ?? '', separator).map((name) => name.trim().toLowerCase());
  // A column that names no heater is the nozzle's.
  const isOurs = (name: string) => /bed|plate/.test(name) === (heater === 'B');
  const time = names.findIndex((name) => /time|second|^s$|^t$/.test(name));
  const target = names.findIndex((name) => /target|set/.test(name) && isOurs(name));
  const actual = names.findIndex(
    (name, at) =>
      /actual|measured|current|temp/.test(name) && at !== time && !/target|set/.test(name) && isOurs(name),
  );
  if (actual < 0 || target < 0) return null;
  let skipped = 0;
  const found = lines.slice(header + 1).flatMap((line) => {
    if (line.trim() === '') return [];
    const cells = cellsOf(line, separator);
    const numbers = [actual, target].map((at) => numberIn(cells[at] ?? ''));
    const stamp = time < 0 ? '' : (cells[time] ?? '').trim();
    const seconds = /^\d+([.,]\d+)?$/.test(stamp) ? numberIn(stamp) : clockOf(stamp);
    const reading = { clock: seconds, actualC: numbers[0] ?? NaN, targetC: numbers[1] ?? NaN };
    if (isReading(reading)) return [reading];
    skipped++;
    return [];
  });
  return { ...timed(found), skipped };
}

interface Found {
  readonly clock: number | null;
  readonly actualC: number;
  readonly targetC: number;
}

/** Figures past all sense (a row of hundreds of digits, text) are no reading; what a sensor cannot have read is one. */
function isReading({ clock, actualC, targetC }: Found): boolean {
  return [clock ?? 0, actualC, targetC].every((one) => Math.abs(one) < MOST);
}

/** The cells of a line; a cell in quotes may hold the separator, and a doubled quote is one (RFC 4180). */
function cellsOf(line: string, separator: string): string[] {
  return dsvFormat(separator).parseRows(line)[0] ?? [];
}

/** A cell of a table; where the cells are not parted by commas, a comma is a decimal one. */
function numberIn(cell: string): number {
  return Number.parseFloat(cell.replace(',', '.'));
}

function clockOf(line: string): number | null {
  const clock = CLOCK.exec(line);
  if (clock) return Number(clock[1]) * 3600 + Number(clock[2]) * 60 + Number(clock[3]);
  const plain = PLAIN_SECONDS.exec(line);
  return plain ? Number(plain[1]) : null;
}

/** Seconds from the first; past midnight the clock begins anew. Without times for all, or where they go back, readings are counted. */
function timed(found: readonly Found[]): Pick<TemperatureLog, 'readings' | 'hasTimes'> {
  let day = 0;
  let before = -Infinity;
  const times = found.map(({ clock }) => {
    if (clock === null) return NaN;
    if (clock + day < before - DAY / 2) day += DAY;
    before = clock + day;
    return before;
  });
  const hasTimes = times.length > 1 && times.every((time, i) => time >= (times[i - 1] ?? -Infinity));
  const start = times[0] ?? 0;
  const readings = found.map(({ actualC, targetC }, i) => ({
    seconds: hasTimes ? (times[i] ?? 0) - start : i,
    actualC,
    targetC,
  }));
  return { readings, hasTimes };
}
