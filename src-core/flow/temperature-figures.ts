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
  /** Readings that cannot be: below 0 °C or above 500 °C. */
  readonly impossible: number;
  /** Steps of 5 K and more at more than 10 K/s: metal cannot do that. */
  readonly jumps: number;
  readonly firstFaultAtSeconds: number | null;
  /** Heating up from below half the target: mean rate, K/s; null when it never heats up. */
  readonly heatingCPerS: number | null;
  readonly overshootC: number;
}

const HELD_SECONDS = 60;
/** The reading has come within this of the target: it is warm. */
const WARM_WITHIN_C = 3;
const JUMP_C = 5;
const JUMP_C_PER_S = 10;
const HIGHEST_C = 500;

/** Figures of a log; needs two readings and more. */
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
  return {
    readings: readings.length,
    seconds: last.seconds - first.seconds,
    held: heldFigures(longestHeld(good)),
    impossible: readings.length - possible.length,
    jumps: jumped.filter(Boolean).length,
    firstFaultAtSeconds: faults.length > 0 ? Math.min(...faults.map(({ seconds }) => seconds)) : null,
    ...heatingFigures(good),
  };
}

function isPossible({ actualC }: TemperatureReading): boolean {
  return actualC >= 0 && actualC <= HIGHEST_C;
}

function isJump({ seconds, actualC }: TemperatureReading, before: TemperatureReading | undefined): boolean {
  if (!before) return false;
  const step = Math.abs(actualC - before.actualC);
  return step >= JUMP_C && step > JUMP_C_PER_S * (seconds - before.seconds);
}

/** The longest stretch at one target above 0 from where it was warm. */
function longestHeld(readings: readonly TemperatureReading[]): readonly TemperatureReading[] {
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
    if (i < readings.length && readings[i]?.targetC === readings[from]?.targetC) continue;
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
  const lowest = errors.indexOf(Math.min(...errors));
  return {
    seconds,
    meanErrorC: mean,
    swingC,
    periodSeconds: periodOf(held, errors, mean, swingC),
    droopC: Math.max(0, -Math.min(...errors)),
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

function heatingFigures(
  readings: readonly TemperatureReading[],
): Pick<TemperatureFigures, 'heatingCPerS' | 'overshootC'> {
  const begin = readings.findIndex(({ actualC, targetC }) => targetC > 60 && actualC < targetC / 2);
  if (begin < 0) return { heatingCPerS: null, overshootC: 0 };
  const target = readings[begin]?.targetC ?? 0;
  const rest = readings.slice(begin);
  const warm = rest.findIndex(({ actualC, targetC }) => targetC === target && actualC >= 0.9 * target);
  const from = rest[0];
  const to = warm < 0 ? rest.at(-1) : rest[warm];
  if (!from || !to || to.seconds <= from.seconds) return { heatingCPerS: null, overshootC: 0 };
  const change = rest.findIndex(({ targetC }) => targetC !== target);
  const reached = rest.slice(0, change < 0 ? undefined : change).map(({ actualC }) => actualC);
  return {
    heatingCPerS: (to.actualC - from.actualC) / (to.seconds - from.seconds),
    overshootC: warm < 0 ? 0 : Math.max(0, Math.max(...reached) - target),
  };
}
