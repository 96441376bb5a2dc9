import { readFileSync } from 'node:fs';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { readCaseFile, type CaseFile } from './case-file.ts';
import { UsageError } from './usage-error.ts';

/** The case file by this name ("-" reads standard input); throws a `UsageError` with every fault of it. */
export function requireCaseFile(file: string, knowledge: Knowledge): CaseFile {
  const read = readCaseFile(readText(file), file, knowledge);
  if (!read.ok) throw new UsageError(read.faults.join('\nbeadwright: '), false);
  return read.caseFile;
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
