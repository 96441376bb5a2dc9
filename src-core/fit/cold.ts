import type { Application } from '../contract/material-fit.ts';

/** Grades and stiffness in the guide are read at room temperature, °C. */
export const ROOM_C = 23;

/** Below this (°C) a grade read in the room says nothing: common practice. */
export const FREEZING_C = 0;

/** The coldest that the part gets as far as was said, °C. */
export function coldestC({ serviceTemperatureC, lowestServiceTemperatureC }: Application): number {
  return lowestServiceTemperatureC ?? serviceTemperatureC;
}
