import {
  materialWaterOf,
  ONE_KILOGRAM_SPOOL,
  woundSpool,
  type Air,
  type MaterialWater,
  type Winding,
} from '../../src-core/moisture/index.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

export const ROOM: Air = { temperatureC: 23, relativeHumidity: 0.5 };

/** The shipped guide's data of a polymer. */
export function waterOf(polymer: string): MaterialWater {
  return materialWaterOf(shippedKnowledge(), polymer);
}

/** A kilogram of it, wound. */
export function kilogramOf(water: MaterialWater): Winding {
  return woundSpool(ONE_KILOGRAM_SPOOL, water.densityKgPerM3);
}
