import { climateSteps, type ClimateSpan, type ClimateSteps } from './climate.ts';
import { diffusivityM2PerS, NINETY_PERCENT_DEVIATE, type Grade, type Range } from './material-water.ts';
import { normalBelow } from '../numerics/normal.ts';
import { printingLimitAt } from './steam.ts';
import { readingsThrough, runThrough, type SpoolLife } from './water-history.ts';
import { LIKELY, type DataPoint, type SpoolWater } from './wound-water.ts';

/** Contents of one strand as bands. */
export interface StrandBand {
  readonly mean: Range;
  readonly surface: Range;
  readonly core: Range;
}

/** Water in a spool with its doubt, and what it means for a print. Contents are mass fractions. */
export interface WaterBand {
  readonly mean: Range;
  readonly outer: StrandBand;
  readonly inner: StrandBand;
  /** Content above which steam troubles a print at the flow asked for. */
  readonly limit: Range;
  /** Chance, 0 to 1, that the content is above the limit, both being in doubt. */
  readonly chanceOverLimit: { readonly mean: number; readonly outer: number; readonly inner: number };
}

/**
 * Points at which the uncertain data are tried, one doubt at a time, and the weights of a point in a doubt's mean and
 * variance: 0.3, 0.4, 0.3 at the 10, 50 and 90 % points (extended Swanson-Megill; Keefer & Bodily, Management Science 29
 * (1983) 595-609, from memory).
 */
const END_WEIGHT = 0.3;
const DOUBTS: readonly (readonly [low: DataPoint, high: DataPoint])[] = [
  [
    { equilibrium: 'low', speed: 'likely' },
    { equilibrium: 'high', speed: 'likely' },
  ],
  [
    { equilibrium: 'likely', speed: 'low' },
    { equilibrium: 'likely', speed: 'high' },
  ],
];
/** Contents below this are as good as none; keeps their logarithm finite. */
const NOTHING = 1e-9;

/** The same life in a room that may have been drier or damper than likely: 10 and 90 % points. Same spans, other air. */
export interface DoubtfulRoom {
  readonly drier: readonly ClimateSpan[];
  readonly damper: readonly ClimateSpan[];
}

/**
 * Water in the spool as a band: 10, 50 and 90 % points, and the chance that it is too wet to print at this flow (mm³/s).
 *
 * The contents are taken as log-normal. What a polymer holds, how fast water moves and how damp the room was multiply to
 * the content, so their doubts nearly add in its logarithm and are tried one at a time. No randomness: the same life gives
 * the same band.
 */
export function waterBand(life: SpoolLife, flowMm3PerS: number, room: DoubtfulRoom | null = null): WaterBand {
  const ends = endsOf(life, room, (one, steps, diffusivity, point) =>
    runThrough(one, steps, diffusivity, point).read(),
  );
  return bandsOf(ends, printingLimitAt(life.water, flowMm3PerS));
}

/** Contents at one moment of a spool's life. */
export interface CoursePoint {
  /** Hours since the beginning of the life. */
  readonly hours: number;
  readonly outer: Range;
  readonly inner: Range;
}

/** The spool's life as bands of the strands' mean contents, at about `points` moments and at the end, for a plot. */
export function waterCourse(
  life: SpoolLife,
  points: number,
  room: DoubtfulRoom | null = null,
): readonly CoursePoint[] {
  const every = Math.max(1, Math.ceil(climateSteps(life.climate).seconds.length / points));
  const courses = endsOf(life, room, (one, steps, diffusivity, point) =>
    readingsThrough(one, steps, diffusivity, point, every),
  );
  return courses.likely.map(({ hours, water }, i) => {
    const at = (course: typeof courses.likely) => course[i]?.water ?? water;
    const here = {
      likely: water,
      ends: courses.ends.map(([low, high]) => [at(low), at(high)] as const),
    };
    const { outer, inner } = bandsOf(here, life.water.printingLimit);
    return { hours, outer: outer.mean, inner: inner.mean };
  });
}

/** A figure with the likely data, and at both ends of each doubt. */
interface Ends<T> {
  readonly likely: T;
  readonly ends: readonly (readonly [low: T, high: T])[];
}

function endsOf<T>(
  life: SpoolLife,
  room: DoubtfulRoom | null,
  run: (life: SpoolLife, steps: ClimateSteps, diffusivity: Float64Array, point: DataPoint) => T,
): Ends<T> {
  const prepared = (climate: readonly ClimateSpan[]) => {
    const steps = climateSteps(climate);
    const speedOf = (grade: Grade) =>
      steps.temperatureC.map((celsius) => diffusivityM2PerS(life.water, celsius, grade));
    return { steps, speedOf };
  };
  const { steps, speedOf } = prepared(life.climate);
  const speeds = { low: speedOf('low'), likely: speedOf('likely'), high: speedOf('high') };
  const at = (point: DataPoint) => run(life, steps, speeds[point.speed], point);
  const inAir = (climate: readonly ClimateSpan[]) => {
    const other = prepared(climate);
    return run({ ...life, climate }, other.steps, other.speedOf('likely'), LIKELY);
  };
  const ends = DOUBTS.map(([low, high]) => [at(low), at(high)] as const);
  return {
    likely: at(LIKELY),
    ends: room ? [...ends, [inAir(room.drier), inAir(room.damper)] as const] : ends,
  };
}

function bandsOf({ likely, ends }: Ends<SpoolWater>, limit: Range): WaterBand {
  const spreadOf = (pick: (water: SpoolWater) => number) =>
    logSpread(
      pick(likely),
      ends.map(([low, high]) => [pick(low), pick(high)]),
    );
  const strandOf = (which: 'outer' | 'inner'): StrandBand => ({
    mean: bandOf(spreadOf((water) => water[which].mean)),
    surface: bandOf(spreadOf((water) => water[which].surface)),
    core: bandOf(spreadOf((water) => water[which].core)),
  });
  const chance = (pick: (water: SpoolWater) => number) => chanceOver(spreadOf(pick), limit);
  return {
    mean: bandOf(spreadOf((water) => water.mean)),
    outer: strandOf('outer'),
    inner: strandOf('inner'),
    limit,
    chanceOverLimit: {
      mean: chance((water) => water.mean),
      outer: chance((water) => water.outer.mean),
      inner: chance((water) => water.inner.mean),
    },
  };
}

/** Logarithm of a content: its value with the likely data, and mean and standard deviation over the doubts. */
interface LogSpread {
  readonly likely: number;
  readonly mean: number;
  readonly deviation: number;
}

function logSpread(likely: number, ends: readonly (readonly [number, number])[]): LogSpread {
  const middle = Math.log(Math.max(NOTHING, likely));
  let mean = middle;
  let variance = 0;
  for (const [low, high] of ends) {
    const down = Math.log(Math.max(NOTHING, low)) - middle;
    const up = Math.log(Math.max(NOTHING, high)) - middle;
    const shift = END_WEIGHT * (down + up);
    mean += shift;
    variance += END_WEIGHT * (down * down + up * up) - shift * shift;
  }
  return { likely: middle, mean, deviation: Math.sqrt(Math.max(0, variance)) };
}

function bandOf({ likely, mean, deviation }: LogSpread): Range {
  const reach = NINETY_PERCENT_DEVIATE * deviation;
  return {
    low: content(Math.min(likely, mean - reach)),
    likely: content(likely),
    high: content(Math.max(likely, mean + reach)),
  };
}

function content(logarithm: number): number {
  const value = Math.exp(logarithm);
  return value <= NOTHING * 1.000001 ? 0 : value;
}

function chanceOver({ mean, deviation }: LogSpread, limit: Range): number {
  const limitDeviation = Math.log(limit.high / limit.low) / (2 * NINETY_PERCENT_DEVIATE);
  return normalBelow((mean - Math.log(limit.likely)) / Math.hypot(deviation, limitDeviation));
}
