import type { RoomClimate, SpoolEvent } from '../contract/spool-life.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { materialWaterOf, type MaterialWater } from './material-water.ts';
import { roomAir, spoolClimate, type SpoolStay } from './spool-climate.ts';
import type { DoubtfulRoom } from './water-band.ts';
import type { SpoolLife } from './water-history.ts';
import { ONE_KILOGRAM_SPOOL, woundSpool } from './winding.ts';
import type { WaterStart } from './wound-water.ts';

/** What is logged about a spool, in order. An undo takes back the newest entry still in force. */
export interface LoggedSpoolEvent {
  readonly seq: number;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly event: SpoolEvent;
}

/** What the label of a spool says. */
export interface SpoolMake {
  readonly polymer: string;
  readonly filler: string;
  readonly fillerPercent: number | null;
  readonly filamentDiameterMm: number;
  /** Filament on it when full, gram. */
  readonly filamentGrams: number;
  /** When it was opened, ISO 8601, and how it has been kept since (a value of `storage`), until the log says otherwise. */
  readonly openedAt: string | null;
  readonly storage: string | null;
}

/** A spool's life in numbers, and the same in a room that may have been drier or damper. */
export interface KnownLife {
  readonly life: SpoolLife;
  readonly room: DoubtfulRoom | null;
  readonly fromMs: number;
  readonly stays: readonly SpoolStay[];
}

/** Makers dry their filament and seal it: content in equilibrium with this humidity at the start. Our estimate. */
const FROM_THE_WORKS = 0.15;

/** Numbers of the entries that an undo took back, and of the undos themselves. */
export function undoneSpoolSeqs(log: readonly LoggedSpoolEvent[]): ReadonlySet<number> {
  const undone = new Set<number>();
  const standing: number[] = [];
  for (const { seq, event } of log) {
    if (event.kind !== 'undone') standing.push(seq);
    else {
      undone.add(seq);
      const taken = standing.pop();
      if (taken !== undefined) undone.add(taken);
    }
  }
  return undone;
}

/** Water data of what is on the spool; null when the guide has none of this polymer. */
export function waterOfMake(
  knowledge: Pick<Knowledge, 'materials' | 'water'>,
  make: Pick<SpoolMake, 'polymer' | 'filler' | 'fillerPercent'>,
): MaterialWater | null {
  if (!knowledge.water.has(make.polymer)) return null;
  const share = make.filler === 'none' ? 0 : (make.fillerPercent ?? 0) / 100;
  return materialWaterOf(knowledge, make.polymer, share);
}

/**
 * The life of a spool from its log until now; null when nothing is logged that says where it has been, or nothing is known
 * of water in its polymer. Entries that name a place of another guide are passed over.
 */
export function lifeOfSpool(
  knowledge: Pick<Knowledge, 'materials' | 'water' | 'places'>,
  make: SpoolMake,
  log: readonly LoggedSpoolEvent[],
  climate: RoomClimate,
  nowMs: number,
): KnownLife | null {
  const water = waterOfMake(knowledge, make);
  if (!water) return null;
  const undone = undoneSpoolSeqs(log);
  const inForce = log.filter(({ seq }) => !undone.has(seq));
  // A weighing tells the content for good: what came before it is history only.
  const weighedAt = inForce.findLastIndex(({ event }) => event.kind === 'weighed');
  const weighing = inForce[weighedAt];
  const stays = staysOf(knowledge, make, inForce, nowMs).flatMap((stay): SpoolStay[] => {
    const fromMs = weighing ? Math.max(stay.fromMs, Date.parse(weighing.at)) : stay.fromMs;
    return fromMs < stay.untilMs ? [{ ...stay, fromMs }] : [];
  });
  const [first] = stays;
  if (!first) return null;
  const size = {
    ...ONE_KILOGRAM_SPOOL,
    filamentDiameterMm: make.filamentDiameterMm,
    filamentKg: make.filamentGrams / 1000,
  };
  const climateOf = (grade: 'drier' | 'likely' | 'damper') => spoolClimate(stays, roomAir(climate, grade));
  return {
    life: {
      winding: woundSpool(size, water.densityKgPerM3),
      water,
      // After drying to no further loss it holds next to nothing: what the weighing calls dry.
      start: weighing ? { kind: 'content', massFraction: 0 } : fromTheWorks(),
      climate: climateOf('likely'),
    },
    room: climate.kind === 'unknown' ? { drier: climateOf('drier'), damper: climateOf('damper') } : null,
    fromMs: first.fromMs,
    stays,
  };
}

function fromTheWorks(): WaterStart {
  return { kind: 'in-equilibrium', relativeHumidity: FROM_THE_WORKS };
}

function staysOf(
  knowledge: Pick<Knowledge, 'places'>,
  make: SpoolMake,
  inForce: readonly LoggedSpoolEvent[],
  nowMs: number,
): SpoolStay[] {
  const moves = inForce.flatMap(({ at, event }) => {
    const place = event.kind === 'moved' ? knowledge.places.get(event.place) : undefined;
    return event.kind === 'moved' && place ? [{ fromMs: Date.parse(at), event, place }] : [];
  });
  const stays = moves.map(({ fromMs, event, place }, i): SpoolStay => ({
    place,
    isDesiccantSpent: event.desiccant === 'spent',
    dryerTemperatureC: event.temperatureC,
    fromMs,
    untilMs: Math.max(fromMs, moves[i + 1]?.fromMs ?? nowMs),
  }));
  const untilMs = stays[0]?.fromMs ?? nowMs;
  const before = stayBeforeTheLog(knowledge, make, untilMs);
  return before ? [before, ...stays] : stays;
}

/** What the record says of the time before anything was logged: opened then, and kept so. */
function stayBeforeTheLog(
  knowledge: Pick<Knowledge, 'places'>,
  { openedAt, storage }: SpoolMake,
  untilMs: number,
): SpoolStay | null {
  const fromMs = openedAt === null ? NaN : Date.parse(openedAt);
  const kept = [...knowledge.places.values()].find((one) => one.storage === storage && one.air !== 'dryer');
  // Dried and kept in a tub counts as the tub: when it was dried is not known.
  const place = kept ?? knowledge.places.get(storage === 'tub-and-dried' ? 'tub' : 'open');
  if (!(fromMs < untilMs) || !place) return null;
  return { place, isDesiccantSpent: false, dryerTemperatureC: null, fromMs, untilMs };
}
