/**
 * When what was missed comes back: Leitner's boxes (Leitner S., So lernt man lernen, Herder 1972). A miss puts it into the first
 * box; each time it is got right it moves one on and rests twice as long; past the last box it is done with. A miss anywhere
 * puts it back into the first. Leitner's boxes are a matter of size, not of days: the days are the usual doubling.
 */
export const REST_DAYS = [1, 2, 4, 8, 16] as const;

const DAY_MS = 24 * 3_600_000;

export interface Attempt {
  /** What was to be found: a cause, or a kind of drill. */
  readonly item: string;
  readonly atMs: number;
  readonly isRight: boolean;
}

export interface Waiting {
  readonly item: string;
  /** From 0. */
  readonly box: number;
  readonly dueMs: number;
}

/** What waits to come back, the soonest first; attempts oldest first. */
export function waitingToComeBack(attempts: readonly Attempt[]): Waiting[] {
  const waiting = new Map<string, Waiting>();
  for (const { item, atMs, isRight } of attempts) {
    const before = waiting.get(item);
    const box = isRight ? (before ? before.box + 1 : null) : 0;
    const days = box === null ? undefined : REST_DAYS[box];
    if (box === null || days === undefined) waiting.delete(item);
    else waiting.set(item, { item, box, dueMs: atMs + days * DAY_MS });
  }
  return [...waiting.values()].sort((a, b) => a.dueMs - b.dueMs);
}
