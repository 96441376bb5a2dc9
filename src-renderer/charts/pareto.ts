export interface ParetoEntry {
  readonly id: string;
  readonly label: string;
  readonly count: number;
  readonly minutesLost: number;
}

export interface ParetoRow extends ParetoEntry {
  /** Share of all minutes, 0–1. */
  readonly share: number;
  /** Share of this one and all before it. */
  readonly cumulative: number;
}

/** Entries by minutes lost, most first, each with its share and the share so far. */
export function paretoOf(entries: readonly ParetoEntry[]): readonly ParetoRow[] {
  const total = entries.reduce((sum, one) => sum + one.minutesLost, 0);
  let soFar = 0;
  return entries
    .toSorted((a, b) => b.minutesLost - a.minutesLost || b.count - a.count)
    .map((one) => {
      soFar += one.minutesLost;
      return {
        ...one,
        share: total > 0 ? one.minutesLost / total : 0,
        cumulative: total > 0 ? soFar / total : 0,
      };
    });
}

/** The chart in a sentence; `what` names the entries in the plural ("causes"). */
export function paretoSentence(rows: readonly ParetoRow[], what: string): string {
  const first = rows[0];
  if (!first || first.minutesLost === 0) return `No minutes lost are on record for these ${what}.`;
  const percent = Math.round(first.share * 100);
  const alone = `“${first.label}” took ${percent} % of the minutes lost`;
  const half = rows.findIndex((row) => row.cumulative >= 0.5) + 1;
  if (rows.length < 3 || half <= 1) return `${alone}.`;
  return `${alone}; the first ${half} of ${rows.length} ${what} took half.`;
}
