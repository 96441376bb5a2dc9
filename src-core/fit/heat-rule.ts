import { FIT_VERDICTS, type FitVerdict } from '../contract/fit-verdicts.ts';
import type { Application, Judgement } from '../contract/material-fit.ts';
import type { ServiceHeat } from '../knowledge/service-schema.ts';
import { judged, notKnown } from './judged.ts';
import type { Fact, MaterialFacts, Span } from './material-facts.ts';
import { fitTexts } from '../words/en/fit.ts';
import { celsius, kelvin, type Message } from '../words/message.ts';

const { m } = fitTexts;

const LOAD_WORDS = {
  none: m.partWithoutLoad(),
  light: m.aLightLoad(),
  heavy: m.aHeavyLoad(),
} as const;

/** A limit with the kelvin it should stand above the service temperature, and what it is called. */
interface Limit {
  readonly fact: Fact<Span>;
  readonly reserveK: number;
  readonly says: Message;
}

/**
 * Highest service temperature against what bears least: heat deflection, and the air that the material bears for years.
 * Without load the deflection at 0.45 MPa counts, under a heavy load that at 1.8 MPa. Under a light one the latter suits
 * outright, and between the two it depends on the load. Reason and margin are those of the limit that judges harder.
 * The reserve is the guide's; continuous use is for years already and wants none.
 */
export function judgeHeat(facts: MaterialFacts, application: Application, heat: ServiceHeat): Judgement {
  const { serviceTemperatureC: serviceC, isOutdoors } = application;
  const asked = { demand: 'heat', label: m.inService({ temperature: celsius(serviceC) }) } as const;
  const deflection = deflectionUnder(
    facts,
    application.steadyLoad,
    heat.reserveK[application.steadyLoad].value,
  );
  const sunC = heat.darkInTheSunC.value;
  if (!deflection) return notKnown(asked, m.temperatureOfGivingWay());
  const limits = facts.continuousUseC ? [deflection, yearsIn(facts.continuousUseC)] : [deflection];
  const limit = hardest(limits, serviceC);
  const atService = verdictAt(limit, serviceC);
  const inSunC = isOutdoors ? Math.max(serviceC, sunC) : serviceC;
  // A summer's sun is not years: what softens is what counts.
  const isSunTheLimit = atService === 'suits' && verdictAt(deflection, inSunC) !== 'suits';
  const reasons = [
    limit.says,
    ...(atService === 'suits-with-limits' ? [m.someGradesBear()] : []),
    ...(isSunTheLimit ? [m.darkInTheSun({ temperature: celsius(sunC) })] : []),
    ...(limit.fact.words === '' ? [] : [m.said({ words: limit.fact.words })]),
  ];
  return judged(
    asked,
    isSunTheLimit ? 'suits-with-limits' : atService,
    reasons,
    {
      kind: 'kelvin',
      low: limit.fact.is.low - serviceC,
      high: limit.fact.is.high - serviceC,
      wanted: limit.reserveK,
    },
    limit.fact,
  );
}

function verdictAt({ fact, reserveK }: Limit, temperatureC: number): FitVerdict {
  if (fact.is.low - temperatureC >= reserveK) return 'suits';
  return fact.is.high - temperatureC >= reserveK ? 'suits-with-limits' : 'does-not-suit';
}

/** The limit of the worse verdict, and of equals the one with less to spare. */
function hardest(limits: readonly Limit[], serviceC: number): Limit {
  const spareK = ({ fact, reserveK }: Limit) => fact.is.low - serviceC - reserveK;
  const severity = (limit: Limit) => FIT_VERDICTS.indexOf(verdictAt(limit, serviceC));
  return limits.reduce((worst, one) => {
    const difference = severity(one) - severity(worst);
    return difference > 0 || (difference === 0 && spareK(one) < spareK(worst)) ? one : worst;
  });
}

function deflectionUnder(
  facts: MaterialFacts,
  load: Application['steadyLoad'],
  reserveK: number,
): Limit | null {
  const { heatLimitC: light, loadedHeatLimitC: loaded } = facts;
  const wants = (gives: Message) => m.wants({ gives, load: LOAD_WORDS[load], reserve: kelvin(reserveK) });
  if (loaded && (load === 'heavy' || (load === 'light' && !light)))
    return { fact: loaded, reserveK, says: wants(m.givesWayLoaded({ temperature: spanWords(loaded.is) })) };
  if (!light) return null;
  if (!loaded || load === 'none')
    return {
      fact: light,
      reserveK,
      says: wants(m.givesWayLight({ temperature: spanWords(light.is) })),
    };
  const fact = between(light, loaded);
  const says = wants(m.givesWayBetween({ loaded: celsius(fact.is.low), light: celsius(fact.is.high) }));
  return { fact, reserveK, says };
}

/** From what suits any light load (1.8 MPa) to what bears the lightest (0.45 MPa). */
function between(light: Fact<Span>, loaded: Fact<Span>): Fact<Span> {
  return { ...loaded, is: { low: Math.min(loaded.is.low, light.is.low), high: light.is.high } };
}

function yearsIn(continuousUse: Fact<Span>): Limit {
  return {
    fact: continuousUse,
    reserveK: 0,
    says: m.bearsForYears({ temperature: spanWords(continuousUse.is) }),
  };
}

const spanWords = ({ low, high }: Span) =>
  low === high ? celsius(low) : m.fromTo({ low: celsius(low), high: celsius(high) });
