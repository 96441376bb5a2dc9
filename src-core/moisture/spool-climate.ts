import type { RoomClimate } from '../contract/spool-life.ts';
import type { SpoolPlace } from '../knowledge/schema.ts';
import type { ClimateSpan } from './climate.ts';
import { humidityWhenHeated, type Air } from './humid-air.ts';

/** A stretch of a spool's life in one place. Times in ms since 1970, UTC. */
export interface SpoolStay {
  readonly place: SpoolPlace;
  readonly isDesiccantSpent: boolean;
  /** In the dryer: temperature beside the spool, °C. */
  readonly dryerTemperatureC: number | null;
  readonly fromMs: number;
  readonly untilMs: number;
}

/** Rooms whose air nobody measured: 10, 50 and 90 % points of the humidity indoors over a year. Our estimate. */
export const UNKNOWN_ROOM = {
  temperatureC: 22,
  drier: 0.32,
  likely: 0.48,
  damper: 0.65,
} as const;
/** A dryer whose temperature nobody measured. Common practice: about 50 °C. */
const USUAL_DRYER_C = 50;

const HOUR_MS = 3_600_000;

/**
 * The air around a spool, stay by stay. The room's air changes with the month where it is given by month. A closed place
 * has the room's temperature and never more humidity than the room.
 */
export function spoolClimate(stays: readonly SpoolStay[], room: (ms: number) => Air): readonly ClimateSpan[] {
  return stays.flatMap((stay) =>
    monthPieces(stay.fromMs, stay.untilMs).map(([fromMs, untilMs]) => ({
      durationHours: (untilMs - fromMs) / HOUR_MS,
      ...airAt(stay, room((fromMs + untilMs) / 2)),
    })),
  );
}

/** The room's air at a time; `grade` tells how damp an unknown room is taken to be. */
export function roomAir(
  climate: RoomClimate,
  grade: 'drier' | 'likely' | 'damper' = 'likely',
): (ms: number) => Air {
  switch (climate.kind) {
    case 'unknown':
      return () => ({ temperatureC: UNKNOWN_ROOM.temperatureC, relativeHumidity: UNKNOWN_ROOM[grade] });
    case 'measured':
      return () => ({ temperatureC: climate.temperatureC, relativeHumidity: climate.percentRh / 100 });
    case 'by-month':
      return (ms) => {
        const month = climate.months[new Date(ms).getUTCMonth()];
        if (!month) throw new RangeError('the climate by month needs twelve months');
        return { temperatureC: month.temperatureC, relativeHumidity: month.percentRh / 100 };
      };
  }
}

function airAt({ place, isDesiccantSpent, dryerTemperatureC }: SpoolStay, room: Air): Air {
  switch (place.air) {
    case 'room':
      return room;
    case 'closed': {
      const closed = place.closedHumidityPercent?.[isDesiccantSpent ? 'spent' : 'fresh'];
      const relativeHumidity = closed === undefined ? room.relativeHumidity : closed / 100;
      return { ...room, relativeHumidity: Math.min(relativeHumidity, room.relativeHumidity) };
    }
    case 'dryer': {
      const temperatureC = Math.max(room.temperatureC, dryerTemperatureC ?? USUAL_DRYER_C);
      return { temperatureC, relativeHumidity: humidityWhenHeated(room, temperatureC) };
    }
  }
}

/** Cut at the turn of each month, UTC. */
function monthPieces(fromMs: number, untilMs: number): (readonly [number, number])[] {
  const pieces: (readonly [number, number])[] = [];
  for (let at = fromMs; at < untilMs;) {
    const day = new Date(at);
    const next = Math.min(untilMs, Date.UTC(day.getUTCFullYear(), day.getUTCMonth() + 1, 1));
    pieces.push([at, next]);
    at = next;
  }
  return pieces;
}
