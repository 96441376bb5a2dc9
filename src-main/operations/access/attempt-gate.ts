const FIRST_WAIT_MS = 15_000;
const LONGEST_WAIT_MS = 60 * 60_000;
/** Doors that nobody tried for this long are forgotten. */
const FORGOTTEN_MS = 24 * 60 * 60_000;
const MOST_DOORS = 10_000;

interface Tried {
  readonly inVain: number;
  readonly atMs: number;
  readonly openAgainMs: number;
}

/** Slows guessing at a door: a few tries are free, then each costs a wait that doubles, up to an hour. */
export class AttemptGate {
  readonly #free: number;
  readonly #tried = new Map<string, Tried>();

  /** `free`: wrong tries before the first wait. */
  constructor(free: number) {
    this.#free = free;
  }

  /** How long a door is still closed, millisecond; 0 where a try may be made. */
  waitMs(door: string, nowMs: number): number {
    return Math.max(0, (this.#tried.get(door)?.openAgainMs ?? 0) - nowMs);
  }

  /** Takes note of a try, before it is looked at: many at once count as many. */
  begin(door: string, nowMs: number): void {
    const inVain = (this.#tried.get(door)?.inVain ?? 0) + 1;
    const beyond = inVain - this.#free;
    const waitMs = beyond < 0 ? 0 : Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** beyond);
    this.#forgetOld(nowMs);
    // Put at the end anew: the map stays in order of the last try.
    this.#tried.delete(door);
    this.#tried.set(door, { inVain, atMs: nowMs, openAgainMs: nowMs + waitMs });
  }

  /** The try was right: the door is as if nobody had tried. */
  right(door: string): void {
    this.#tried.delete(door);
  }

  #forgetOld(nowMs: number): void {
    for (const [door, { atMs }] of this.#tried) {
      if (nowMs - atMs <= FORGOTTEN_MS && this.#tried.size < MOST_DOORS) return;
      this.#tried.delete(door);
    }
  }
}
