import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { programVersion } from '../hosting/program-files.ts';
import { readKnowledge } from '../knowledge/read-knowledge.ts';
import { readCaseFile } from './case-file.ts';
import { diagnose, diagnosisText } from './diagnose.ts';
import { UsageError } from './usage-error.ts';

/** `diagnose CASE.yaml [--json]`; "-" reads standard input. */
export function runDiagnose(folder: string, args: readonly string[]): void {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: { json: { type: 'boolean' } },
    allowPositionals: true,
  });
  const [file] = positionals;
  if (!file || positionals.length > 1) throw new UsageError('diagnose takes one case file');
  const knowledge = readKnowledge(folder, programVersion(folder));
  const read = readCaseFile(readText(file), file, knowledge);
  if (!read.ok) throw new UsageError(read.faults.join('\nbeadwright: '), false);
  const diagnosis = diagnose(knowledge, read.caseFile);
  process.stdout.write(
    values.json ? `${JSON.stringify(diagnosis, null, 2)}\n` : `${diagnosisText(knowledge, diagnosis)}\n`,
  );
}

function readText(file: string): string {
  try {
    return readFileSync(file === '-' ? 0 : file, 'utf8');
  } catch (error) {
    throw new UsageError(
      `${file} cannot be read: ${error instanceof Error ? error.message : String(error)}`,
      false,
    );
  }
}
