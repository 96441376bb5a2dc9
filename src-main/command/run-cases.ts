import { readFileSync, writeFileSync } from 'node:fs';
import { UsageError } from './usage-error.ts';
import { withProgram } from './with-program.ts';

/** `cases export [FILE]` (standard output without a file), `cases import FILE`. JSON Lines, one case a line. */
export async function runCases(folder: string, args: readonly string[]): Promise<void> {
  const [what, file, ...more] = args;
  if (more.length > 0) throw new UsageError(`cases ${what} takes one file`);
  if (what === 'export') {
    await withProgram(folder, async (call) => {
      const { jsonLines, count } = await call('case:export', { caseIds: null });
      if (file) writeFileSync(file, jsonLines);
      else process.stdout.write(jsonLines);
      process.stderr.write(`${count} cases exported\n`);
    });
  } else if (what === 'import') {
    if (!file) throw new UsageError('cases import takes the file to read');
    let jsonLines: string;
    try {
      jsonLines = readFileSync(file, 'utf8');
    } catch (error) {
      throw new UsageError(
        `${file} cannot be read: ${error instanceof Error ? error.message : String(error)}`,
        false,
      );
    }
    await withProgram(folder, async (call) => {
      const { imported, known, faults } = await call('case:import', { jsonLines });
      for (const fault of faults) process.stderr.write(`${file}:${fault.line}: ${fault.message}\n`);
      process.stdout.write(
        `${imported} cases imported, ${known} already here, ${faults.length} lines not usable\n`,
      );
      if (faults.length > 0) process.exitCode = 2;
    });
  } else throw new UsageError(`cases takes export or import, not "${what ?? ''}"`);
}
