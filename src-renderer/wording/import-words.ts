/** What an import did, in one sentence. */
export function importSentence(report: {
  readonly imported: number;
  readonly known: number;
  readonly faults: readonly unknown[];
}): string {
  const { imported, known } = report;
  const faulty = report.faults.length;
  if (imported + known + faulty === 0) return 'there are no cases in this file.';
  const parts = [imported === 0 ? 'no new cases' : `${cases(imported)} imported`];
  if (known > 0) parts.push(`${cases(known)} already here`);
  if (faulty > 0)
    parts.push(
      `${faulty === 1 ? '1 line' : `${faulty} lines`} could not be read and ${faulty === 1 ? 'was' : 'were'} left out`,
    );
  return `${parts.join(', ')}.`;
}

function cases(count: number): string {
  return count === 1 ? '1 case' : `${count} cases`;
}
