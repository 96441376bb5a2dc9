import { parseArgs } from 'node:util';
import { programVersion } from '../bootstrap/program-files.ts';
import { readKnowledge } from '../knowledge/read-knowledge.ts';
import { diagnose, diagnosisText } from './diagnose.ts';
import { requireCaseFile } from './require-case-file.ts';
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
  const diagnosis = diagnose(knowledge, requireCaseFile(file, knowledge));
  process.stdout.write(
    values.json ? `${JSON.stringify(diagnosis, null, 2)}\n` : `${diagnosisText(knowledge, diagnosis)}\n`,
  );
}
