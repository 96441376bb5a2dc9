import { listed } from '../messages/lists.ts';
import { m } from '../messages/en/import-words.ts';

interface ImportCounts {
  readonly imported: number;
  readonly known: number;
  readonly faults: readonly unknown[];
}

/** What an import did, in one sentence. */
export function importSentence(report: ImportCounts): string {
  return sentence(report, m.imported, m.linesCouldNotBeReadAnd);
}

/** What one would do. */
export function triedSentence(report: ImportCounts): string {
  return sentence(report, m.wouldComeIn, m.linesCannotBeReadAnd);
}

function sentence(
  report: ImportCounts,
  cameIn: (values: { cases: string }) => string,
  leftOut: (values: { faulty: number }) => string,
): string {
  const { imported, known } = report;
  const faulty = report.faults.length;
  if (imported + known + faulty === 0) return m.thereAreNoCasesInThis();
  const parts = [imported === 0 ? m.noNewCases() : cameIn({ cases: cases(imported) })];
  if (known > 0) parts.push(m.alreadyHere({ cases: cases(known) }));
  if (faulty > 0) parts.push(leftOut({ faulty }));
  return m.inAll({ parts: listed(parts, 'comma') });
}

function cases(count: number): string {
  return m.cases({ count });
}
