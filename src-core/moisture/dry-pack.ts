/** Mean length of a month, days: as J-STD-033 and EIA-583 count. */
export const DAYS_PER_MONTH = 30.4;

/**
 * Water that one unit of desiccant takes up at least, gram, in equilibrium with air of 25 °C and this relative humidity.
 * MIL-D-3464E (1987) defines the unit by 3 g at 20 % and 6 g at 40 %; DIN 55474 adds 8 g at 60 %.
 */
export const GRAM_PER_UNIT = { atTwenty: 3, atForty: 6, atSixty: 8 } as const;

/** A closed pack: bag or tub with filament in it. */
export interface DryPack {
  readonly months: number;
  /** Water through a square metre in a day at the storage climate, g/(m² day). */
  readonly gPerM2Day: number;
  readonly areaM2: number;
  /** Water that one unit may take up before the air is too damp, gram; see `GRAM_PER_UNIT`. */
  readonly gramPerUnit: number;
}

/**
 * Units of desiccant that a dry pack needs: 30.4 × months × transmission × area / capacity.
 *
 * IPC/JEDEC J-STD-033B.1 prints the factor 0.304. That fits transmission in g/(100 in² day) with the area in in²: 30.4 days a
 * month over 100. In metric units, g/(m² day) and m², it must be 30.4; with 0.304 the pack would get a hundredth of what
 * it needs. The answer is not rounded: use whole units, upwards.
 */
export function desiccantUnits(pack: DryPack): number {
  const { months, gPerM2Day, areaM2, gramPerUnit } = requireNumbers(pack);
  if (gramPerUnit === 0) throw new RangeError('gramPerUnit must be above 0');
  return (DAYS_PER_MONTH * months * gPerM2Day * areaM2) / gramPerUnit;
}

/** A pack that also holds damp air and damp packing; DIN 55474. */
export interface DampPack extends DryPack {
  readonly airM3: number;
  /** Water in the air when it was closed, g/m³; the standard takes 15 (20 °C, 85 %). */
  readonly airGPerM3: number;
  readonly packingKg: number;
  /** Water in the packing, g/kg: 140 for wood and board as they come, 0 when dried. */
  readonly packingGPerKg: number;
}

/** Correction of DIN 55474 for the air that may get damp inside: 0.9, 0.7, 0.6 where 20, 40, 60 % are allowed. */
const GRADIENT = new Map<number, number>([
  [GRAM_PER_UNIT.atTwenty, 0.9],
  [GRAM_PER_UNIT.atForty, 0.7],
  [GRAM_PER_UNIT.atSixty, 0.6],
]);

/**
 * Units of desiccant by DIN 55474: n = (V b + m c + A e D t)/a. `gramPerUnit` must be one of `GRAM_PER_UNIT`, which fixes e.
 * Months count 30.4 days.
 */
export function desiccantUnitsDin(pack: DampPack): number {
  const { airM3, airGPerM3, packingKg, packingGPerKg, months, gPerM2Day, areaM2, gramPerUnit } =
    requireNumbers(pack);
  const gradient = GRADIENT.get(gramPerUnit);
  if (gradient === undefined) {
    throw new RangeError(
      `DIN 55474 knows units of ${[...GRADIENT.keys()].join(', ')} g, not of ${gramPerUnit} g`,
    );
  }
  const throughFilm = areaM2 * gradient * gPerM2Day * DAYS_PER_MONTH * months;
  return (airM3 * airGPerM3 + packingKg * packingGPerKg + throughFilm) / gramPerUnit;
}

function requireNumbers<P extends DryPack>(pack: P): P {
  for (const [what, value] of Object.entries(pack)) {
    if (!(typeof value === 'number' && value >= 0 && Number.isFinite(value))) {
      throw new RangeError(`${what} is a number from 0 up, not ${value}`);
    }
  }
  return pack;
}
