export interface MonthCount {
  /** "2026-11". */
  readonly month: string;
  readonly count: number;
  readonly minutesLost: number;
}

/** The months from the first to the last on record, those without cases filled in with none. */
export function withEmptyMonths(months: readonly MonthCount[]): readonly MonthCount[] {
  const sorted = months.toSorted((a, b) => a.month.localeCompare(b.month));
  const [first, last] = [sorted[0], sorted.at(-1)];
  if (!first || !last) return [];
  const filled: MonthCount[] = [];
  for (let month = first.month; month <= last.month; month = monthAfter(month)) {
    filled.push(sorted.find((one) => one.month === month) ?? { month, count: 0, minutesLost: 0 });
  }
  return filled;
}

/** "Nov 2026"; short: "Nov". */
export function monthWords(month: string, isShort = false): string {
  const [year, number] = month.split('-').map(Number);
  const day = new Date(year ?? 1970, (number ?? 1) - 1, 1);
  return day.toLocaleDateString('en-GB', isShort ? { month: 'short' } : { month: 'short', year: 'numeric' });
}

/** The chart in a sentence. */
export function monthsSentence(months: readonly MonthCount[]): string {
  const total = months.reduce((sum, one) => sum + one.count, 0);
  if (months.length === 0 || total === 0) return 'No cases in this period.';
  const most = months.reduce((best, one) => (one.count > best.count ? one : best));
  const mean = total / months.length;
  const cases = most.count === 1 ? '1 case' : `${most.count} cases`;
  if (months.length === 1) return `${monthWords(most.month)}: ${cases}.`;
  return `Most were opened in ${monthWords(most.month)}: ${cases}; the mean is ${mean.toFixed(1)} a month.`;
}

function monthAfter(month: string): string {
  const [year, number] = month.split('-').map(Number);
  const next = (number ?? 1) === 12 ? [(year ?? 0) + 1, 1] : [year ?? 0, (number ?? 1) + 1];
  return `${String(next[0]).padStart(4, '0')}-${String(next[1]).padStart(2, '0')}`;
}
