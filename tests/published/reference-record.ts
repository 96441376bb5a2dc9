import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';

interface ReferenceRecord {
  readonly id: string;
  readonly value: unknown;
  readonly source: string;
  readonly status: 'read' | 'memory' | 'derived';
}

/** The value of one record of tests/published/reference/, cited by file and id. */
export function referenceValue<T>(file: string, id: string): T {
  const text = readFileSync(path.join(import.meta.dirname, 'reference', `${file}.yaml`), 'utf8');
  const record = (parse(text) as ReferenceRecord[]).find((one) => one.id === id);
  if (!record) throw new Error(`${file}.yaml has no record ${id}`);
  return record.value as T;
}
