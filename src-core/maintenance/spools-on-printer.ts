import type { LoggedSpoolEvent } from '../moisture/index.ts';
import { undoneSpoolSeqs } from '../moisture/index.ts';
import { hoursWithin, type PrintedStretch } from '../recurrence/print-hours.ts';

/** A spool on a printer from one time to another (ms since 1970). */
export interface SpoolOnPrinter {
  readonly fromMs: number;
  readonly toMs: number;
  readonly filler: string;
}

interface SpoolWithLog {
  readonly filler: string;
  /** Oldest first. */
  readonly log: readonly LoggedSpoolEvent[];
}

/**
 * Which spools were on a printer and when, oldest first. A spool stays until it is moved; on a printer that takes one at a
 * time (`takesOne`) until the next is put on, whatever was not logged.
 */
export function spoolsOnPrinter(
  printerId: string,
  spools: readonly SpoolWithLog[],
  takesOne: boolean,
  nowMs: number,
): readonly SpoolOnPrinter[] {
  const stays = spools.flatMap(({ filler, log }) => {
    const undone = undoneSpoolSeqs(log);
    const moves = log.flatMap(({ seq, at, event }) =>
      event.kind === 'moved' && !undone.has(seq) ? [{ ms: Date.parse(at), on: event.printerId ?? null }] : [],
    );
    return moves.flatMap(({ ms, on }, i) =>
      on === printerId ? [{ fromMs: ms, toMs: moves[i + 1]?.ms ?? nowMs, filler }] : [],
    );
  });
  const sorted = stays.toSorted((a, b) => a.fromMs - b.fromMs);
  if (!takesOne) return sorted;
  return sorted.flatMap((stay, i) => {
    const toMs = Math.min(stay.toMs, sorted[i + 1]?.fromMs ?? Infinity);
    return toMs > stay.fromMs ? [{ ...stay, toMs }] : [];
  });
}

/**
 * What a counter ran on by between two times (ms since 1970), each part weighed by the spools that were on then: the
 * heaviest of several, `otherwise` where none is known.
 */
export function weighedWithin(
  stretches: readonly PrintedStretch[],
  stays: readonly SpoolOnPrinter[],
  fromMs: number,
  toMs: number,
  weightOf: (filler: string) => number,
  otherwise: number,
): number {
  const turns = [fromMs, toMs, ...stays.flatMap((stay) => [stay.fromMs, stay.toMs])]
    .filter((ms) => ms >= fromMs && ms <= toMs)
    .sort((a, b) => a - b);
  let sum = 0;
  for (const [i, from] of turns.entries()) {
    const to = turns[i + 1] ?? from;
    if (to === from) continue;
    const on = stays.filter((stay) => stay.fromMs <= from && stay.toMs >= to);
    const weight = on.length === 0 ? otherwise : Math.max(...on.map(({ filler }) => weightOf(filler)));
    sum += weight * hoursWithin(stretches, from, to);
  }
  return sum;
}
