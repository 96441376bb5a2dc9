import path from 'node:path';
import { codeOf } from '../casebook/file-trouble.ts';
import { programFolder } from '../bootstrap/program-files.ts';
import { UsageError } from './usage-error.ts';

const HELP = `beadwright diagnose CASE.yaml [--json]
beadwright understand "WORDS" [--printer NAME]... [--spool NAME]... [--json]
beadwright knowledge list [--json] | check [FOLDER] [--thorough [--cases N]] | schema
beadwright knowledge export-network [--conditions CASE.yaml]
beadwright job FILE [--nozzle MM] [--polymer ID] [--melt-zone short|long|extra-long] [--filament MM] [--json]
beadwright cases export [FILE] | import FILE [--dry-run]
beadwright backups list | make | restore NAME
beadwright casebook move --to postgres://ADDRESS | --to FILE
beadwright casebook use postgres://ADDRESS | FILE | --usual

The casebook is the one of the desktop and the station: the PostgreSQL database named by BEADWRIGHT_DATABASE, the file named
by BEADWRIGHT_CASEBOOK, what "casebook use" has kept, or the usual file in the user's data folder.
`;

const FILE_FAULTS = new Set(['ENOENT', 'EACCES', 'EISDIR', 'ENOTDIR', 'EPERM', 'EROFS', 'ENOSPC']);

/**
 * Runs one command line, without the program's own name: prints to standard output and error, and sets the exit code, 2
 * where the caller is at fault.
 */
export async function runCommand(words: readonly string[]): Promise<void> {
  const folder = programFolder(path.resolve(import.meta.dirname));
  try {
    await runWords(folder, words);
  } catch (error) {
    sayFault(error);
  }
}

/** Each command is loaded on demand: a diagnosis needs no casebook. */
async function runWords(folder: string, [command, ...rest]: readonly string[]): Promise<void> {
  switch (command) {
    case 'diagnose':
      (await import('./run-diagnose.ts')).runDiagnose(folder, rest);
      break;
    case 'understand':
      (await import('./run-understand.ts')).runUnderstand(folder, rest);
      break;
    case 'job':
      await (await import('./run-job.ts')).runJob(folder, rest);
      break;
    case 'knowledge':
      (await import('./run-knowledge.ts')).runKnowledge(folder, rest);
      break;
    case 'cases':
      await (await import('./run-cases.ts')).runCases(folder, rest);
      break;
    case 'backups':
      await (await import('./run-backups.ts')).runBackups(folder, rest);
      break;
    case 'casebook':
      await (await import('./run-casebook.ts')).runCasebook(rest);
      break;
    case undefined:
    case 'help':
    case '--help':
      process.stdout.write(HELP);
      break;
    default:
      throw new UsageError(`there is no command "${command}"`);
  }
}

function sayFault(error: unknown): void {
  const fault = usageFault(error);
  process.stderr.write(
    `beadwright: ${fault?.message ?? (error instanceof Error ? error.message : String(error))}\n`,
  );
  if (fault?.isAboutWords) process.stderr.write(`\n${HELP}`);
  // A stack is for whoever works on the program, and asks for it.
  if (!fault && process.env['BEADWRIGHT_STACK'] && error instanceof Error)
    process.stderr.write(`${error.stack ?? ''}\n`);
  process.exitCode = fault ? 2 : 1;
}

/** The caller's own fault: wrong words, flags that there are not, a file that is not there. */
function usageFault(error: unknown): UsageError | null {
  if (error instanceof UsageError) return error;
  const code = codeOf(error);
  const message = error instanceof Error ? error.message : String(error);
  if (code.startsWith('ERR_PARSE_ARGS')) return new UsageError(message.split('.')[0] ?? message);
  return FILE_FAULTS.has(code) ? new UsageError(message, false) : null;
}
