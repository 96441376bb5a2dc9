import { requireAir, VAPOUR_GAS_CONSTANT, ZERO_CELSIUS_K, type Air } from './humid-air.ts';
import { saturationPressurePa } from './saturation-pressure.ts';
import { vapourDiffusivityM2PerS } from './winding.ts';

/** A stretch of time in which the air around the spool stays the same. Relative humidity is a fraction. */
export interface ClimateSpan extends Air {
  readonly durationHours: number;
}

/** A history cut into steps short enough for the winding, with what each needs of the air. Arrays run by step. */
export interface ClimateSteps {
  readonly seconds: Float64Array;
  readonly temperatureC: Float64Array;
  readonly relativeHumidity: Float64Array;
  /** Diffusivity of vapour in air times vapour density at saturation, kg/(m s). */
  readonly vapourPath: Float64Array;
}

/** Spans up to this long are one step; longer ones start with a quarter of it and go on in steps that grow by a fifth. */
const WHOLE_STEP_HOURS = 1;
const FIRST_SHARE = 0.25;
const GROWTH = 1.2;
/** In hotter air everything is quicker, and steps are shorter in proportion. */
const HOT_C = 40;

/**
 * Checks a history and cuts it into steps. A strand is followed exactly whatever the step; the winding with an error of
 * the first order, so steps are short after each change of the air and lengthen while it stays.
 *
 * A RangeError names the span, counted from 1, and what would be right.
 */
export function climateSteps(climate: readonly ClimateSpan[]): ClimateSteps {
  const hours: number[] = [];
  const spanOf: number[] = [];
  climate.forEach((span, index) => {
    const where = `span ${index + 1} of the history`;
    requireAir(span, where);
    if (!(span.durationHours >= 0 && span.durationHours <= 1e6)) {
      throw new RangeError(
        `${where}: its duration runs from 0 to a million hours, not ${span.durationHours}`,
      );
    }
    let left = span.durationHours;
    const whole =
      span.temperatureC <= HOT_C
        ? WHOLE_STEP_HOURS
        : (WHOLE_STEP_HOURS * vapourPathKgPerMS(HOT_C)) / vapourPathKgPerMS(span.temperatureC);
    let step = left <= whole ? left : whole * FIRST_SHARE;
    while (left > 0) {
      // A last crumb of a step is put into the one before.
      const next = left < step * 1.5 ? left : step;
      hours.push(next);
      spanOf.push(index);
      left -= next;
      step *= GROWTH;
    }
  });
  const at = (step: number) => climate[spanOf[step] ?? 0] ?? { temperatureC: 23, relativeHumidity: 0 };
  const temperatureC = Float64Array.from(hours, (_, i) => at(i).temperatureC);
  return {
    seconds: Float64Array.from(hours, (one) => one * 3600),
    temperatureC,
    relativeHumidity: Float64Array.from(hours, (_, i) => at(i).relativeHumidity),
    vapourPath: temperatureC.map(vapourPathKgPerMS),
  };
}

/** Diffusivity of vapour in air times its density at saturation, kg/(m s): what drives vapour through a winding. */
export function vapourPathKgPerMS(temperatureC: number): number {
  const kelvin = temperatureC + ZERO_CELSIUS_K;
  return (
    (vapourDiffusivityM2PerS(temperatureC) * saturationPressurePa(kelvin)) / (VAPOUR_GAS_CONSTANT * kelvin)
  );
}
