import type { Desiccant } from '../knowledge/schema.ts';
import { DAYS_PER_MONTH } from './dry-pack.ts';
import { absoluteHumidityKgPerM3, requireAir, vapourPressurePa, type Air } from './humid-air.ts';
import { equilibriumMassFraction, type MaterialWater } from './material-water.ts';

const TRANSMISSION_TEST: Air = { temperatureC: 38, relativeHumidity: 0.9 };

/** A closed tub or bag with a spool and, perhaps, desiccant. */
export interface SealedTub {
  /** Air left in it, litre. */
  readonly airLitre: number;
  /** Air it was closed with; the temperature stays. */
  readonly closedWith: Air;
  readonly filamentKg: number;
  readonly water: MaterialWater;
  /** Content of the filament when it was closed, mass fraction. */
  readonly filamentMassFraction: number;
  readonly desiccant: Desiccant | null;
  /** Dry weight of the desiccant, gram, and the water already in it, gram. */
  readonly desiccantG: number;
  readonly desiccantHoldsG: number;
  /** Water that comes in through walls and lid in a day, gram, while it is dry inside. */
  readonly leakGPerDay: number;
  /** Relative humidity of the room it stands in, fraction. */
  readonly roomHumidity: number;
  /** Relative humidity inside above which the desiccant is due, fraction. */
  readonly highestHumidity: number;
}

/** Where the water of a closed tub is, once it has spread, and how long it stays dry. */
export interface SealedOutlook {
  /** Relative humidity (fraction) when air, filament and desiccant have come to rest. Takes days to weeks. */
  readonly relativeHumidity: number;
  readonly filamentMassFraction: number;
  /** Water in the air, in the filament and in the desiccant then, gram. */
  readonly waterInAirG: number;
  readonly waterInFilamentG: number;
  readonly waterInDesiccantG: number;
  /** Months until the humidity passes `highestHumidity`; 0 when it does at once, `null` when it never does. */
  readonly monthsUntilDamp: number | null;
  readonly cautions: readonly string[];
}

/**
 * Balance of water in a closed tub: what air, filament and desiccant held when it was closed is shared out at one relative
 * humidity. The air holds next to nothing; the filament and the leak decide.
 *
 * Water comes in by leak in proportion to the difference of humidity, and the contents are taken to be at rest all the time.
 * The filament's likely data are used. A RangeError names a number that cannot be.
 */
export function sealedOutlook(tub: SealedTub): SealedOutlook {
  requireTub(tub);
  const total = waterInG(tub, tub.closedWith.relativeHumidity, 'as-closed');
  const relativeHumidity = humidityHolding(tub, total);
  const filamentMassFraction = equilibriumMassFraction(tub.water, relativeHumidity, 'likely');
  return {
    relativeHumidity,
    filamentMassFraction,
    waterInAirG: airG(tub, relativeHumidity),
    waterInFilamentG: filamentMassFraction * tub.filamentKg * 1000,
    waterInDesiccantG: desiccantHoldsG(tub, relativeHumidity),
    monthsUntilDamp: monthsUntilDamp(tub, relativeHumidity),
    cautions: tub.desiccant ? ['desiccant-dust'] : [],
  };
}

/**
 * Water through a wall in a day, gram, with dry air inside, from the transmission in the standard test at 38 °C and 90 %:
 * in proportion to the vapour pressure of the room. Plastic also lets less through when cooler, so this is an upper bound.
 */
export function leakThroughWallGPerDay(gPerM2Day: number, areaM2: number, room: Air): number {
  for (const [what, value] of Object.entries({ gPerM2Day, areaM2 })) {
    if (!(value >= 0 && Number.isFinite(value)))
      throw new RangeError(`${what} is a number from 0 up, not ${value}`);
  }
  return gPerM2Day * areaM2 * (vapourPressurePa(room) / vapourPressurePa(TRANSMISSION_TEST));
}

/** Water per 100 g of desiccant at this relative humidity (fraction): straight lines between the guide's points. */
export function desiccantGPer100g(desiccant: Desiccant, relativeHumidity: number): number {
  const percent = relativeHumidity * 100;
  const above = desiccant.holds.findIndex((point) => point.atPercentRh >= percent);
  const right = desiccant.holds[above];
  const left = desiccant.holds[above - 1];
  if (!right) return desiccant.holds.at(-1)?.gPer100g ?? 0;
  if (!left) return right.gPer100g;
  const share = (percent - left.atPercentRh) / (right.atPercentRh - left.atPercentRh);
  return left.gPer100g + share * (right.gPer100g - left.gPer100g);
}

/** All water at one humidity, gram; `as-closed` takes filament and desiccant as they were put in. */
function waterInG(tub: SealedTub, relativeHumidity: number, how: 'at-rest' | 'as-closed'): number {
  const air = airG(tub, relativeHumidity);
  if (how === 'as-closed')
    return air + tub.filamentMassFraction * tub.filamentKg * 1000 + tub.desiccantHoldsG;
  const filament = equilibriumMassFraction(tub.water, relativeHumidity, 'likely') * tub.filamentKg * 1000;
  return air + filament + desiccantHoldsG(tub, relativeHumidity);
}

function airG(tub: SealedTub, relativeHumidity: number): number {
  return tub.airLitre * absoluteHumidityKgPerM3({ ...tub.closedWith, relativeHumidity });
}

function desiccantHoldsG(tub: SealedTub, relativeHumidity: number): number {
  return tub.desiccant ? (desiccantGPer100g(tub.desiccant, relativeHumidity) * tub.desiccantG) / 100 : 0;
}

/** Bisection; the water held rises with humidity. Saturated when even damp contents cannot hold it all. */
function humidityHolding(tub: SealedTub, totalG: number): number {
  if (waterInG(tub, 1, 'at-rest') <= totalG) return 1;
  let low = 0;
  let high = 1;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (waterInG(tub, middle, 'at-rest') < totalG) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** ∫ dW / (leak × (1 - h/room)) from the humidity at rest to the highest: midpoint rule over equal steps of humidity. */
function monthsUntilDamp(tub: SealedTub, from: number): number | null {
  if (from >= tub.highestHumidity) return 0;
  const room = tub.roomHumidity;
  if (tub.highestHumidity >= room || tub.leakGPerDay === 0) return null;
  const parts = 400;
  const step = (tub.highestHumidity - from) / parts;
  let days = 0;
  for (let i = 0; i < parts; i++) {
    const here = from + i * step;
    const gain = waterInG(tub, here + step, 'at-rest') - waterInG(tub, here, 'at-rest');
    days += gain / (tub.leakGPerDay * (1 - (here + step / 2) / room));
  }
  return days / DAYS_PER_MONTH;
}

function requireTub(tub: SealedTub): void {
  requireAir(tub.closedWith, 'air the tub was closed with');
  const { airLitre, filamentKg, filamentMassFraction, desiccantG, desiccantHoldsG: held, leakGPerDay } = tub;
  const amounts = {
    airLitre,
    filamentKg,
    filamentMassFraction,
    desiccantG,
    desiccantHoldsG: held,
    leakGPerDay,
  };
  for (const [what, value] of Object.entries(amounts)) {
    if (!(value >= 0 && Number.isFinite(value)))
      throw new RangeError(`${what} is a number from 0 up, not ${value}`);
  }
  if (!(filamentMassFraction < 1)) {
    throw new RangeError(`filamentMassFraction is a fraction (0.5 % is 0.005), not ${filamentMassFraction}`);
  }
  requireAir({ ...tub.closedWith, relativeHumidity: tub.roomHumidity }, 'room the tub stands in');
  if (!(tub.highestHumidity > 0 && tub.highestHumidity <= 1)) {
    throw new RangeError(
      `highestHumidity is a fraction above 0 and up to 1 (10 % is 0.1), not ${tub.highestHumidity}`,
    );
  }
}
