/** Of each kind of period, how many of the newest keep a backup. At most 46 files in all, and a few besides. */
const TIERS: readonly { readonly count: number; readonly periodOf: (at: Date) => string }[] = [
  // Each by itself: one made by hand must not go with the next one of the same hour.
  { count: 6, periodOf: (at) => at.toISOString() },
  { count: 12, periodOf: (at) => at.toISOString().slice(0, 13) },
  { count: 10, periodOf: (at) => at.toISOString().slice(0, 10) },
  { count: 6, periodOf: weekOf },
  { count: 12, periodOf: (at) => at.toISOString().slice(0, 7) },
];

export interface DatedBackup {
  readonly name: string;
  /** ISO 8601, UTC. */
  readonly at: string;
  /** Cases in it; null where it cannot be read. */
  readonly cases: number | null;
}

/**
 * The backups that are kept, by name: the newest 6, of the last 12 hours that have one the newest of each, and so of 10 days, 6 weeks
 * and 12 months. Periods are counted by the backups that there are, not by the clock, so that a long holiday costs
 * nothing. Backups of a time still to come (the clock was wrong) are counted by themselves and crowd out none. The newest
 * good one, the one with the most cases, and `justMade` are kept whatever their time.
 */
export function keptBackups(
  backups: readonly DatedBackup[],
  now: Date,
  justMade: string | null,
): ReadonlySet<string> {
  const kept = new Set<string>();
  if (justMade !== null) kept.add(justMade);
  const good = backups
    .filter(({ cases }) => cases !== null)
    .toSorted((a, b) => b.at.localeCompare(a.at) || b.name.localeCompare(a.name));
  const fullest = good.reduce<DatedBackup | null>(
    (most, one) => ((one.cases ?? 0) > (most?.cases ?? -1) ? one : most),
    null,
  );
  if (fullest) kept.add(fullest.name);
  const [past, still] = [
    good.filter(({ at }) => Date.parse(at) <= now.getTime()),
    good.filter(({ at }) => Date.parse(at) > now.getTime()),
  ];
  if (past[0]) kept.add(past[0].name);
  for (const group of [past, still]) {
    for (const { count, periodOf } of TIERS) {
      const seen = new Set<string>();
      for (const { name, at } of group) {
        const period = periodOf(new Date(at));
        if (seen.has(period) || seen.size >= count) continue;
        seen.add(period);
        kept.add(name);
      }
    }
  }
  return kept;
}

/** The Monday that a day's week began with. */
function weekOf(at: Date): string {
  const monday = new Date(at);
  monday.setUTCDate(at.getUTCDate() - ((at.getUTCDay() + 6) % 7));
  return monday.toISOString().slice(0, 10);
}
