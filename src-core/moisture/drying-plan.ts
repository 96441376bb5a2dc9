import { climateSteps } from './climate.ts';
import { humidityAtPressure, pressureAtDewPointPa, vapourPressurePa, type Air } from './humid-air.ts';
import {
  diffusivityM2PerS,
  equilibriumMassFraction,
  GRADES,
  type Grade,
  type Range,
} from './material-water.ts';
import { runThrough, type SpoolLife } from './water-history.ts';
import type { Winding } from './winding.ts';
import type { DataPoint, SpoolWater } from './wound-water.ts';

/** A dryer as it is, not as its dial says. */
export interface Dryer {
  /** Highest temperature measured beside the spool, °C. */
  readonly chamberTemperatureC: number;
  /** What it breathes: air of the room, or air dried to this dew point (°C, -40 for most dry-air dryers). */
  readonly air:
    | { readonly kind: 'room-air'; readonly room: Air }
    | { readonly kind: 'dry-air'; readonly dewPointC: number };
}

/** A spool to be dried, with what it has been through; no climate when its content was measured just now. */
export interface DryingJob extends SpoolLife {
  readonly dryer: Dryer;
  /** Highest temperature that the spool body bears, °C. */
  readonly spoolBodyHighestC: number;
  /** Content that the wettest wraps are to reach, mass fraction above 0. */
  readonly targetMassFraction: number;
}

interface DryingOutlook {
  /** Temperature to set: the dryer's, or less where filament or spool would suffer. */
  readonly temperatureC: number;
  /** What keeps the temperature below the dryer's own. */
  readonly heldBackBy: 'filament' | 'spool' | null;
  /** Content that the filament would end at after endless drying. */
  readonly equilibrium: Range;
  /** Hours until the middle of the winding is warm; little dries before. Estimate. */
  readonly warmUpHours: number;
  readonly cautions: readonly string[];
}

/**
 * What drying takes. Hours count from warm; `null` means longer than `LONGEST_HOURS`. Low, likely and high follow the doubt
 * about the speed of water, so `high` is the time to plan for.
 */
export type DryingPlan = DryingOutlook &
  (
    | { readonly kind: 'dry-already' }
    | {
        readonly kind: 'plan';
        readonly outerHours: DryingHours;
        readonly innerHours: DryingHours;
        /** The 90 % point of the equilibrium lies above the target: weigh before trusting the time. */
        readonly mayStayDamp: boolean;
      }
    | {
        readonly kind: 'cannot';
        /** The air in the dryer holds too much water, or water leaves too slowly. */
        readonly because: 'air-too-damp' | 'too-slow';
        /** Where `LONGEST_HOURS` would get it, with the likely data. */
        readonly atBest: SpoolWater;
      }
  );
export type DryingHours = { readonly [G in Grade]: number | null };

/** Content of outermost and innermost wraps in the course of drying; hours from warm. */
export interface DryingPoint {
  readonly hours: number;
  readonly outer: Range;
  readonly inner: Range;
}

/** Nobody waits longer, and the filament ages. */
export const LONGEST_HOURS = 72;
const FIRST_STEP_HOURS = 0.1;
const STEP_GROWTH = 1.12;
/** Thermal diffusivity of a winding, m²/s. Estimate: polymers have 0.8 to 1.3e-7. */
const WINDING_THERMAL_DIFFUSIVITY = 1e-7;

/**
 * Time at temperature to bring a spool to a target content, or why that cannot be.
 *
 * Never hotter than filament, winding and spool body bear. Throws a RangeError on numbers out of range; a damp dryer or a
 * slow polymer is an answer, not an error.
 */
export function planDrying(job: DryingJob): DryingPlan {
  if (!(job.targetMassFraction > 0 && job.targetMassFraction < 1)) {
    throw new RangeError(
      `target content is a mass fraction between 0 and 1 (0.05 % is 0.0005), not ${job.targetMassFraction}`,
    );
  }
  const outlook = outlookOf(job);
  const target = job.targetMassFraction;
  const likely = dryWith(job, outlook.temperatureC, 'likely');
  const first = likely[0]?.water;
  const last = likely.at(-1)?.water;
  if (!first || !last) throw new Error('drying has no course');
  if (wettest(first) <= target) return { ...outlook, kind: 'dry-already' };
  if (outlook.equilibrium.likely >= target) {
    return { ...outlook, kind: 'cannot', because: 'air-too-damp', atBest: last };
  }
  if (wettest(last) > target) return { ...outlook, kind: 'cannot', because: 'too-slow', atBest: last };
  const fast = dryWith(job, outlook.temperatureC, 'high');
  const slow = dryWith(job, outlook.temperatureC, 'low');
  const hoursFor = (which: 'outer' | 'inner'): DryingHours => ({
    low: hoursTo(fast, which, target),
    likely: hoursTo(likely, which, target),
    high: hoursTo(slow, which, target),
  });
  return {
    ...outlook,
    kind: 'plan',
    outerHours: hoursFor('outer'),
    innerHours: hoursFor('inner'),
    mayStayDamp: outlook.equilibrium.high >= target,
  };
}

/** The course of drying for a plot: points close together at first, to `LONGEST_HOURS`. The band follows the speed of water. */
export function dryingCurve(job: Omit<DryingJob, 'targetMassFraction'>): readonly DryingPoint[] {
  const { temperatureC } = outlookOf(job);
  const courses = GRADES.map((speed) => dryWith(job, temperatureC, speed));
  const [slow, likely, fast] = courses;
  if (!slow || !likely || !fast) throw new Error('drying has no course');
  return likely.map(({ hours, water }, i) => {
    const band = (which: 'outer' | 'inner'): Range => {
      const here = water[which].mean;
      const others = [fast[i]?.water[which].mean ?? here, slow[i]?.water[which].mean ?? here];
      return { low: Math.min(here, ...others), likely: here, high: Math.max(here, ...others) };
    };
    return { hours, outer: band('outer'), inner: band('inner') };
  });
}

function outlookOf(job: Omit<DryingJob, 'targetMassFraction'>): DryingOutlook {
  const { water, dryer, spoolBodyHighestC } = job;
  if (!(spoolBodyHighestC > 0)) {
    throw new RangeError(`the spool bears a temperature above 0 °C, not ${spoolBodyHighestC}`);
  }
  const temperatureC = Math.min(dryer.chamberTemperatureC, water.highestDryingC, spoolBodyHighestC);
  const relativeHumidity = humidityIn(dryer, temperatureC);
  const at = (grade: Grade) => equilibriumMassFraction(water, relativeHumidity, grade);
  return {
    temperatureC,
    heldBackBy:
      temperatureC === dryer.chamberTemperatureC
        ? null
        : temperatureC === water.highestDryingC
          ? 'filament'
          : 'spool',
    equilibrium: { low: at('low'), likely: at('likely'), high: at('high') },
    warmUpHours: warmUpHours(job.winding),
    cautions: ['oven-drying'],
  };
}

/** Relative humidity (fraction) in a dryer: its air heated without adding or removing water. */
function humidityIn(dryer: Dryer, temperatureC: number): number {
  const pressure =
    dryer.air.kind === 'dry-air'
      ? pressureAtDewPointPa(dryer.air.dewPointC)
      : vapourPressurePa(dryer.air.room);
  return humidityAtPressure(pressure, temperatureC);
}

/** Time constant of a slab heated from one side, 4 L²/(π² α) (Carslaw & Jaeger 1959, 3.4): two thirds of the way. */
function warmUpHours(winding: Winding): number {
  return (4 * winding.depthM ** 2) / (Math.PI ** 2 * WINDING_THERMAL_DIFFUSIVITY) / 3600;
}

type Course = readonly { readonly hours: number; readonly water: SpoolWater }[];

function dryWith(job: Omit<DryingJob, 'targetMassFraction'>, temperatureC: number, speed: Grade): Course {
  const point: DataPoint = { equilibrium: 'likely', speed };
  const steps = climateSteps(job.climate);
  const diffusivity = steps.temperatureC.map((celsius) => diffusivityM2PerS(job.water, celsius, speed));
  const spool = runThrough(job, steps, diffusivity, point);
  const air: Air = { temperatureC, relativeHumidity: humidityIn(job.dryer, temperatureC) };
  const course = [{ hours: 0, water: spool.read() }];
  let hours = 0;
  for (let step = FIRST_STEP_HOURS; hours < LONGEST_HOURS; step *= STEP_GROWTH) {
    const next = Math.min(step, LONGEST_HOURS - hours);
    spool.expose(air, next);
    hours += next;
    course.push({ hours, water: spool.read() });
  }
  return course;
}

function wettest(water: SpoolWater): number {
  return Math.max(water.outer.mean, water.inner.mean);
}

/** When the wraps pass the target for good; between points the content is taken to fall evenly. */
function hoursTo(course: Course, which: 'outer' | 'inner', target: number): number | null {
  const after = course.findIndex(({ water }) => water[which].mean <= target);
  if (after < 0) return null;
  const here = course[after];
  const before = course[after - 1];
  if (!here || !before) return 0;
  const [high, low] = [before.water[which].mean, here.water[which].mean];
  return before.hours + ((here.hours - before.hours) * (high - target)) / (high - low);
}
