import {
  forgetOldTries,
  forgetTries,
  readTries,
  saveTries,
  type DoorTriesRow,
} from '../../casebook/door-tries.repository.ts';
import type { CasebookDb } from '../../casebook/casebook.ts';

const FIRST_WAIT_MS = 15_000;
const LONGEST_WAIT_MS = 60 * 60_000;
/** Doors that nobody tried for this long are forgotten. */
const FORGOTTEN_MS = 24 * 60 * 60_000;
const MOST_DOORS = 10_000;
/** Clocks of stations that share a casebook may differ by this much; what was tried later than that is no wait. */
const CLOCKS_APART_MS = 10 * 60_000;

/** How guessing is slowed at one kind of door. */
export interface Gate {
  /** Wrong tries before the first wait. */
  readonly free: number;
  /** Wrong tries after which each wait is twice the one before; until then each is as short as the first. */
  readonly steadyUntil?: number;
}

/** A door that somebody tries; its name tells it from all others. */
export interface GuardedDoor {
  readonly gate: Gate;
  readonly name: string;
}

const GATES = {
  joining: { free: 8 },
  pinOnDevice: { free: 4 },
  device: { free: 12 },
  /** Five wrong PINs slow everybody who tries that person's, a little; only twenty shut others out for longer. */
  person: { free: 5, steadyUntil: 20 },
} as const satisfies Readonly<Record<string, Gate>>;

/** Tries of join codes, by the address they come from. */
export function joiningDoors(from: string): readonly GuardedDoor[] {
  return [{ gate: GATES.joining, name: `joining ${from}` }];
}

/** Of PINs: on one device for one person; on one device; for one person on all devices of all stations together. */
export function pinDoors(deviceId: string, personId: string): readonly GuardedDoor[] {
  return [
    { gate: GATES.pinOnDevice, name: `pin-on-device ${deviceId} ${personId}` },
    { gate: GATES.device, name: `device ${deviceId}` },
    { gate: GATES.person, name: `person ${personId}` },
  ];
}

/** How often a door was tried in vain, and from when on it may be tried again. */
export interface Tried {
  readonly inVain: number;
  readonly atMs: number;
  readonly openAgainMs: number;
}

/** How long a door is still closed, millisecond, at most an hour; 0 where a try may be made. */
export function waitMs(tried: Tried | undefined, nowMs: number): number {
  if (!tried || tried.atMs > nowMs + CLOCKS_APART_MS) return 0;
  return Math.min(LONGEST_WAIT_MS, Math.max(0, tried.openAgainMs - nowMs));
}

/** A few tries are free, then each costs a wait, which doubles up to an hour. */
export function triedOnceMore(
  { free, steadyUntil = free }: Gate,
  tried: Tried | undefined,
  nowMs: number,
): Tried {
  const inVain = (tried?.inVain ?? 0) + 1;
  const doublings = Math.max(0, inVain - steadyUntil);
  const cost = inVain < free ? 0 : Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** doublings);
  return { inVain, atMs: nowMs, openAgainMs: nowMs + cost };
}

/**
 * Takes note of a try at all of these doors, before it is looked at: many at once count as many, at whatever stations. Returns
 * how long to wait where one of them is closed, millisecond; nothing is noted then. 0 where the try may be looked at.
 */
export async function beginTry(
  db: CasebookDb,
  doors: readonly GuardedDoor[],
  nowMs: number,
): Promise<number> {
  return db.transaction().execute(async (trx) => {
    const rows = await readTries(
      trx,
      doors.map(({ name }) => name),
    );
    const tried = new Map(rows.map((row) => [row.door, triedOf(row)]));
    const wait = Math.max(...doors.map(({ name }) => waitMs(tried.get(name), nowMs)));
    if (wait > 0) return wait;
    for (const { gate, name } of doors)
      await saveTries(trx, rowOf(name, triedOnceMore(gate, tried.get(name), nowMs)));
    await forgetOldTries(trx, new Date(nowMs - FORGOTTEN_MS).toISOString(), MOST_DOORS);
    return 0;
  });
}

/** The try was right: the doors are as if nobody had tried. */
export async function wasRight(db: CasebookDb, doors: readonly GuardedDoor[]): Promise<void> {
  await forgetTries(
    db,
    doors.map(({ name }) => name),
  );
}

function triedOf({ in_vain, at, open_again_at }: DoorTriesRow): Tried {
  return { inVain: in_vain, atMs: Date.parse(at), openAgainMs: Date.parse(open_again_at) };
}

function rowOf(door: string, { inVain, atMs, openAgainMs }: Tried): DoorTriesRow {
  return {
    door,
    in_vain: inVain,
    at: new Date(atMs).toISOString(),
    open_again_at: new Date(openAgainMs).toISOString(),
  };
}
