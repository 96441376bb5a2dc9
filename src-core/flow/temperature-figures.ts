import { largest, smallest } from './extremes.ts';
import type { TemperatureReading } from './temperature-log.ts';

/** What a temperature log shows of one heater. Temperatures in K where they are differences. */
export interface TemperatureFigures {
  readonly readings: number;
  readonly seconds: number;
  /** While held at one target for a minute and more, the warm-up left out. */
  readonly held: {
    readonly seconds: number;
    readonly meanErrorC: number;
    /** Half of the difference between the 5 and 95 % points. */
    readonly swingC: number;
    /** Of a regular swing, s; null when it is irregular or small. */
    readonly periodSeconds: number | null;
    /** Largest fall below the target, and when it was, s. */
    readonly droopC: number;
    readonly droopAtSeconds: number;
    /** Slope of the reading, K an hour. */
    readonly driftCPerHour: number;
  } | null;
  /** Readings that cannot be: below 0 °C or above 550 °C. */
  readonly impossible: number;
  /** Steps of 5 K and more at more than 10 K/s: metal cannot do that. */
  readonly jumps: number;
  readonly firstFaultAtSeconds: number | null;
  /** Usual time between readings, s, and stretches without any that are far longer. */
  readonly usualStepSeconds: number;
  readonly gaps: { readonly count: number; readonly longestSeconds: number };
  /** Usual difference between neighbouring readings, K. */
  readonly noiseC: number;
  /** Heating up from below half the target; null when it never heats up. */
  readonly heating: {
    readonly fromC: number;
    readonly toC: number;
    readonly seconds: number;
    readonly targetC: number;
    /** Highest above the target; null when the log ends, or the target changes, before it could settle. */
    readonly overshootC: number | null;
    /** It stood still well below the target at the end of a long try. */
    readonly isStuck: boolean;
  } | null;
}

const HELD_SECONDS = 60;
/** The reading has come within this of the target: it is warm. */
const WARM_WITHIN_C = 3;
const JUMP_C = 5;
const JUMP_C_PER_S = 10;
const HIGHEST_C = 550;
/** Clocks in logs count whole seconds. */
const CLOCK_SECONDS = 1;
/** No readings for this long, and for this many usual steps: a gap. */
const GAP_SECONDS = 10;
const GAP_STEPS = 5;
const SETTLED_SECONDS = 30;
const STUCK_AFTER_SECONDS = 900;
const STUCK_BELOW_C = 10;
/** Still rising at this, it may yet get there. */
const STUCK_RISE_C_PER_S = 0.01;

/** Figures of a log with times that do not go back; needs two readings and more. */
export function temperatureFigures(readings: readonly TemperatureReading[]): TemperatureFigures {
  const first = readings[0];
  const last = readings.at(-1);
  if (!first || !last || readings.length < 2)
    throw new RangeError(`a temperature log needs two readings and more, not ${readings.length}`);
  const possible = readings.filter(isPossible);
  // After a jump the next reading jumps back: the one in between is left out.
  const jumped = possible.map((one, i) => isJump(one, possible[i - 1]));
  const good = possible.filter((_, i) => !jumped[i]);
  const faults = [...readings.filter((one) => !isPossible(one)), ...possible.filter((_, i) => jumped[i])];
  const steps = readings.slice(1).map(({ seconds }, i) => seconds - (readings[i]?.seconds ?? 0));
  const usualStepSeconds = medianOf(steps);
  const longestStep = Math.max(GAP_SECONDS, GAP_STEPS * usualStepSeconds);
  const gaps = steps.filter((step) => step > longestStep);
  return {
    readings: readings.length,
    seconds: last.seconds - first.seconds,
    held: heldFigures(longestHeld(good, longestStep)),
    usualStepSeconds,
    gaps: { count: gaps.length, longestSeconds: Math.max(0, ...gaps) },
    noiseC: medianOf(
      good.slice(1).map(({ actualC }, i) => Math.abs(actualC - (good[i]?.actualC ?? actualC))),
    ),
    impossible: readings.length - possible.length,
    jumps: jumped.filter(Boolean).length,
    firstFaultAtSeconds: faults.length > 0 ? smallest(faults.map(({ seconds }) => seconds)) : null,
    heating: heatingFigures(good),
  };
}

function medianOf(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}

/** Whether a sensor can have read this. */
export function isPossible({ actualC }: TemperatureReading): boolean {
  return actualC >= 0 && actualC <= HIGHEST_C;
}

function isJump({ seconds, actualC }: TemperatureReading, before: TemperatureReading | undefined): boolean {
  if (!before) return false;
  const step = Math.abs(actualC - before.actualC);
  return step >= JUMP_C && step > JUMP_C_PER_S * Math.max(CLOCK_SECONDS, seconds - before.seconds);
}

/** The longest stretch at one target above 0 from where it was warm, without a gap. */
function longestHeld(
  readings: readonly TemperatureReading[],
  longestStep: number,
): readonly TemperatureReading[] {
  let best: readonly TemperatureReading[] = [];
  let from = 0;
  const consider = (to: number) => {
    const stretch = readings.slice(from, to);
    const warm = stretch.findIndex(({ actualC, targetC }) => Math.abs(actualC - targetC) <= WARM_WITHIN_C);
    if (warm < 0 || (stretch[0]?.targetC ?? 0) <= 0) return;
    // What follows the first warm reading is still settling for a while.
    const begin = (stretch[warm]?.seconds ?? 0) + HELD_SECONDS / 2;
    const held = stretch.filter(({ seconds }) => seconds >= begin);
    if (spanOf(held) > spanOf(best)) best = held;
  };
  for (let i = 1; i <= readings.length; i++) {
    const [before, one, start] = [readings[i - 1], readings[i], readings[from]];
    const goesOn = before && one && one.seconds - before.seconds <= longestStep;
    if (goesOn && one.targetC === start?.targetC) continue;
    consider(i);
    from = i;
  }
  return best;
}

function spanOf(readings: readonly TemperatureReading[]): number {
  return (readings.at(-1)?.seconds ?? 0) - (readings[0]?.seconds ?? 0);
}

function heldFigures(held: readonly TemperatureReading[]): TemperatureFigures['held'] {
  const seconds = spanOf(held);
  if (seconds < HELD_SECONDS) return null;
  const errors = held.map(({ actualC, targetC }) => actualC - targetC);
  const mean = errors.reduce((sum, one) => sum + one, 0) / errors.length;
  const sorted = [...errors].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
  const swingC = (at(0.95) - at(0.05)) / 2;
  const lowest = errors.indexOf(smallest(errors));
  return {
    seconds,
    meanErrorC: mean,
    swingC,
    periodSeconds: periodOf(held, errors, mean, swingC),
    droopC: Math.max(0, -smallest(errors)),
    droopAtSeconds: held[lowest]?.seconds ?? 0,
    driftCPerHour: 3600 * slopeOf(held, errors),
  };
}

/** Least squares slope, K/s. */
function slopeOf(held: readonly TemperatureReading[], errors: readonly number[]): number {
  const meanTime = held.reduce((sum, { seconds }) => sum + seconds, 0) / held.length;
  const meanError = errors.reduce((sum, one) => sum + one, 0) / errors.length;
  let above = 0;
  let below = 0;
  held.forEach(({ seconds }, i) => {
    above += (seconds - meanTime) * ((errors[i] ?? 0) - meanError);
    below += (seconds - meanTime) ** 2;
  });
  return below > 0 ? above / below : 0;
}

function riseOf(readings: readonly TemperatureReading[]): number {
  return slopeOf(
    readings,
    readings.map(({ actualC }) => actualC),
  );
}

/** Mean time between rising crossings of the mean, if these come regularly; small wobbles are not counted. */
function periodOf(
  held: readonly TemperatureReading[],
  errors: readonly number[],
  mean: number,
  swingC: number,
): number | null {
  if (swingC < 0.5) return null;
  const crossings: number[] = [];
  let isLow = false;
  errors.forEach((error, i) => {
    if (error < mean - swingC / 2) isLow = true;
    else if (isLow && error > mean) {
      crossings.push(held[i]?.seconds ?? 0);
      isLow = false;
    }
  });
  const gaps = crossings.slice(1).map((one, i) => one - (crossings[i] ?? 0));
  if (gaps.length < 3) return null;
  const usual = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  const spread = Math.sqrt(gaps.reduce((sum, gap) => sum + (gap - usual) ** 2, 0) / gaps.length);
  return spread < 0.35 * usual ? usual : null;
}

function heatingFigures(readings: readonly TemperatureReading[]): TemperatureFigures['heating'] {
  const begin = readings.findIndex(({ actualC, targetC }) => targetC > 60 && actualC < targetC / 2);
  const from = readings[begin];
  if (!from) return null;
  const change = readings.findIndex(({ targetC }, i) => i > begin && targetC !== from.targetC);
  const tried = readings.slice(begin, change < 0 ? undefined : change);
  const warm = tried.find(({ actualC, targetC }) => actualC >= 0.9 * targetC);
  const end = tried.at(-1);
  const to = warm ?? end;
  if (!to || !end || to.seconds <= from.seconds) return null;
  const near = tried.find(({ actualC, targetC }) => actualC >= targetC - WARM_WITHIN_C);
  const isSettled = near !== undefined && end.seconds - near.seconds >= SETTLED_SECONDS;
  const highestC = largest(tried.map(({ actualC }) => actualC));
  return {
    fromC: from.actualC,
    toC: to.actualC,
    seconds: to.seconds - from.seconds,
    targetC: from.targetC,
    overshootC: isSettled ? Math.max(0, highestC - from.targetC) : null,
    isStuck:
      end.seconds - from.seconds >= STUCK_AFTER_SECONDS &&
      highestC < from.targetC - STUCK_BELOW_C &&
      riseOf(tried.filter(({ seconds }) => seconds >= end.seconds - 2 * HELD_SECONDS)) < STUCK_RISE_C_PER_S,
  };
}
