import type { Application, FitVerdict, Judgement } from '../contract/material-fit.ts';
import { judged, notKnown } from './judged.ts';
import type { MaterialFacts } from './material-facts.ts';

/**
 * Kelvin that the heat limit should stand above the service temperature. Heat deflection is read under a small load in a
 * short test, so a lasting load wants more (common practice is 10 to 20 K; the steps are our estimate).
 */
export const HEAT_RESERVE_K = { none: 5, light: 10, heavy: 20 } as const;

/** Temperature of a dark part in the sun, °C. Common practice: 60 to 70 °C in summer, more behind glass. */
export const IN_THE_SUN_C = 65;

const LOAD_WORDS = { none: 'a part without load', light: 'a light load', heavy: 'a heavy load' } as const;

/** Highest service temperature against heat deflection at 0.45 MPa; the margin is limit minus service temperature. */
export function judgeHeat(facts: MaterialFacts, application: Application): Judgement {
  const { serviceTemperatureC: serviceC, steadyLoad, isOutdoors } = application;
  const asked = { demand: 'heat', label: `${serviceC} °C in service` } as const;
  const limit = facts.heatLimitC;
  if (!limit) return notKnown(asked, 'the temperature at which it gives way');
  const reserve = HEAT_RESERVE_K[steadyLoad];
  const verdictAt = (temperatureC: number): FitVerdict =>
    limit.is.low - temperatureC >= reserve
      ? 'suits'
      : limit.is.high - temperatureC >= reserve
        ? 'suits-with-limits'
        : 'does-not-suit';
  const atService = verdictAt(serviceC);
  const inSun = isOutdoors ? verdictAt(Math.max(serviceC, IN_THE_SUN_C)) : atService;
  const isSunTheLimit = atService === 'suits' && inSun !== 'suits';
  const span = limit.is.low === limit.is.high ? `${limit.is.low}` : `${limit.is.low} to ${limit.is.high}`;
  const reasons = [
    `Gives way under a small load at ${span} °C; ${LOAD_WORDS[steadyLoad]} wants that ${reserve} °C above the service temperature.`,
    atService === 'suits-with-limits'
      ? 'Some grades bear it and some do not: ask for the figure of yours.'
      : '',
    isSunTheLimit
      ? `A dark part in the sun reaches about ${IN_THE_SUN_C} °C: make it light or shade it.`
      : '',
    limit.words,
  ];
  return judged(
    asked,
    isSunTheLimit ? 'suits-with-limits' : atService,
    reasons.filter(Boolean).join(' '),
    { kind: 'kelvin', low: limit.is.low - serviceC, high: limit.is.high - serviceC, wanted: reserve },
    limit,
  );
}
