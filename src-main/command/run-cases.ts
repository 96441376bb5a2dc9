import { closeSync, createReadStream, openSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { UsageError } from './usage-error.ts';
import { withProgram, type TrustedCall } from './with-program.ts';

/** Characters of lines that one call of an import takes. */
const LOT_CHARACTERS = 4 * 1024 * 1024;

/**
 * `cases export [FILE]` (standard output without a file), `cases import FILE`, with `--dry-run` only to say what would come in and
 * which lines cannot be used. JSON Lines, one case a line.
 */
export async function runCases(folder: string, args: readonly string[]): Promise<void> {
  const isDryRun = args[0] === 'import' && args.includes('--dry-run');
  const [what, file, ...more] = isDryRun ? args.filter((word) => word !== '--dry-run') : args;
  if (more.length > 0) throw new UsageError(`cases ${what} takes one file`);
  const flag = [what, file].find((word) => word?.startsWith('--'));
  if (flag) throw new UsageError(`cases knows no ${flag}`);
  if (what === 'export') {
    await withProgram(folder, (call) => (file ? exportToFile(call, file) : exportToOutput(call)));
  } else if (what === 'import') {
    if (!file) throw new UsageError('cases import takes the file to read');
    refuseUnreadable(file);
    await withProgram(folder, (call) => importLots(call, file, isDryRun), { isWriting: !isDryRun });
  } else throw new UsageError(`cases takes export or import, not "${what ?? ''}"`);
}

/** A file of the same name is replaced only once the whole export is written. */
async function exportToFile(call: TrustedCall, file: string): Promise<void> {
  const unfinished = `${file}.part`;
  try {
    const handle = openSync(unfinished, 'w', 0o600);
    try {
      await exportPages(call, (text) => Promise.resolve(void writeSync(handle, text)));
    } finally {
      closeSync(handle);
    }
    renameSync(unfinished, file);
  } catch (error) {
    rmSync(unfinished, { force: true });
    if (error instanceof UsageError) throw error;
    throw new UsageError(
      `${file} cannot be written: ${error instanceof Error ? error.message : String(error)}`,
      false,
    );
  }
}

function exportToOutput(call: TrustedCall): Promise<void> {
  return exportPages(call, async (text) => {
    if (!process.stdout.write(text)) await once(process.stdout, 'drain');
  });
}

async function exportPages(call: TrustedCall, write: (text: string) => Promise<void>): Promise<void> {
  let count = 0;
  let after: string | null = null;
  do {
    const page: Awaited<ReturnType<typeof call<'case:export'>>> = await call('case:export', { after });
    await write(page.jsonLines);
    for (const { number, seq, fault } of page.setAside)
      process.stderr.write(
        `case ${number}, entry ${seq}: cannot be read and was exported as it is: ${inEnglish(fault)}\n`,
      );
    count += page.count;
    after = page.next;
  } while (after !== null);
  process.stderr.write(`${count} cases exported\n`);
}

interface Lot {
  readonly firstLine: number;
  readonly jsonLines: string;
}

/** A file that cannot be read is said before the casebook is opened. */
function refuseUnreadable(file: string): void {
  try {
    closeSync(openSync(file, 'r'));
    if (statSync(file).isDirectory()) throw new Error('it is a folder');
  } catch (error) {
    throw new UsageError(
      `${file} cannot be read: ${error instanceof Error ? error.message : String(error)}`,
      false,
    );
  }
}

/** The lines of a file, some megabytes at a time. */
async function* lotsOf(file: string): AsyncGenerator<Lot> {
  const lines = createInterface({ input: createReadStream(file, 'utf8'), crlfDelay: Infinity });
  let firstLine = 1;
  let number = 0;
  let lot: string[] = [];
  let length = 0;
  for await (const line of lines) {
    lot.push(line);
    number++;
    length += line.length;
    if (length < LOT_CHARACTERS) continue;
    yield { firstLine, jsonLines: lot.join('\n') };
    firstLine = number + 1;
    lot = [];
    length = 0;
  }
  if (lot.length > 0) yield { firstLine, jsonLines: lot.join('\n') };
}

async function importLots(call: TrustedCall, file: string, isDryRun: boolean): Promise<void> {
  let [imported, known, faulty] = [0, 0, 0];
  for await (const { firstLine, jsonLines } of lotsOf(file)) {
    const report = await call('case:import', { jsonLines, isDryRun });
    for (const { line, message } of report.faults)
      process.stderr.write(`${file}:${firstLine + line - 1}: ${inEnglish(message)}\n`);
    imported += report.imported;
    known += report.known;
    faulty += report.faults.length;
  }
  const done = isDryRun ? 'would be imported (nothing was written)' : 'imported';
  process.stdout.write(`${imported} cases ${done}, ${known} already here, ${faulty} lines not usable\n`);
  if (faulty > 0) process.exitCode = 2;
}
