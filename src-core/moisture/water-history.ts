import { climateSteps, type ClimateSpan, type ClimateSteps } from './climate.ts';
import { diffusivityM2PerS, type MaterialWater } from './material-water.ts';
import type { Winding } from './winding.ts';
import { LIKELY, WoundWater, type DataPoint, type SpoolWater, type WaterStart } from './wound-water.ts';

/** A spool's life so far. Spans follow one another, oldest first. */
export interface SpoolLife {
  readonly winding: Winding;
  readonly water: MaterialWater;
  readonly start: WaterStart;
  readonly climate: readonly ClimateSpan[];
}

/**
 * Water in the spool after its history, for one choice of the uncertain data. See `WoundWater` for the method and what it
 * assumes; `waterBand` carries the doubt. A RangeError names a span that is out of range.
 */
export function waterAfter(life: SpoolLife, point: DataPoint = LIKELY): SpoolWater {
  const steps = climateSteps(life.climate);
  const diffusivity = steps.temperatureC.map((celsius) =>
    diffusivityM2PerS(life.water, celsius, point.speed),
  );
  return runThrough(life, steps, diffusivity, point).read();
}

/**
 * The spool at some of its steps: where it began, every `every`th step, and the last. Same arguments as `runThrough`.
 */
export function readingsThrough(
  life: Omit<SpoolLife, 'climate'>,
  steps: ClimateSteps,
  diffusivity: Float64Array,
  point: DataPoint,
  every: number,
): readonly { readonly hours: number; readonly water: SpoolWater }[] {
  const spool = new WoundWater(life.winding, life.water, life.start, point);
  const readings = [{ hours: 0, water: spool.read() }];
  let hours = 0;
  const last = steps.seconds.length - 1;
  for (let i = 0; i <= last; i++) {
    const seconds = steps.seconds[i] ?? 0;
    spool.step(seconds, steps.relativeHumidity[i] ?? 0, diffusivity[i] ?? 0, steps.vapourPath[i] ?? 0);
    hours += seconds / 3600;
    if (i % every === every - 1 || i === last) readings.push({ hours, water: spool.read() });
  }
  return readings;
}

/** Takes a spool through prepared steps. `diffusivity` holds the polymer's for each step at the speed of `point`. */
export function runThrough(
  life: Omit<SpoolLife, 'climate'>,
  steps: ClimateSteps,
  diffusivity: Float64Array,
  point: DataPoint,
): WoundWater {
  const spool = new WoundWater(life.winding, life.water, life.start, point);
  for (let i = 0; i < steps.seconds.length; i++) {
    spool.step(
      steps.seconds[i] ?? 0,
      steps.relativeHumidity[i] ?? 0,
      diffusivity[i] ?? 0,
      steps.vapourPath[i] ?? 0,
    );
  }
  return spool;
}
