import { m } from '../messages/en/import-words.ts';

/** What an import did, in one sentence. */
export function importSentence(report: {
  readonly imported: number;
  readonly known: number;
  readonly faults: readonly unknown[];
}): string {
  const { imported, known } = report;
  const faulty = report.faults.length;
  if (imported + known + faulty === 0) return m.thereAreNoCasesInThis();
  const parts = [imported === 0 ? m.noNewCases() : m.imported({ cases: cases(imported) })];
  if (known > 0) parts.push(m.alreadyHere({ cases: cases(known) }));
  if (faulty > 0) parts.push(m.linesCouldNotBeReadAnd({ faulty }));
  return `${parts.join(', ')}.`;
}

function cases(count: number): string {
  return m.cases({ count });
}
