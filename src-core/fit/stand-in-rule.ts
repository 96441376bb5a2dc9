import type { Judgement } from '../contract/material-fit.ts';
import { stepsOver } from './grade.ts';
import { judged, notKnown } from './judged.ts';
import type { MaterialFacts, Span } from './material-facts.ts';

/** Heat limit lower by this many kelvin counts as short; by twice as many as far short. Our estimate. */
const HEAT_SHORT_K = 10;
/** Stiffness off by this factor counts as off; by its square as far off. Our estimate. */
const STIFFNESS_OFF = 1.5;

/** "Short" of the moulded part, "far" short, or as good. */
interface Shortfall {
  readonly words: string;
  readonly isFar: boolean;
}

/**
 * A print against the moulded part that it stands in for: heat limit, stiffness and impact beside those of its polymer. A
 * print never suits without limits, as it bears about half across its layers (common practice).
 */
export function judgeStandIn(facts: MaterialFacts, original: MaterialFacts): Judgement {
  const asked = { demand: 'stand-in', label: `In place of moulded ${original.label}` } as const;
  const { heatLimitC: heat, flexuralModulusGPa: modulus, impact } = facts;
  if (!heat || !original.heatLimitC) return notKnown(asked, 'its heat limit beside that of the moulded part');
  if (!modulus || !original.flexuralModulusGPa)
    return notKnown(asked, 'its stiffness beside that of the moulded part');
  if (!impact || !original.impact) return notKnown(asked, 'its impact beside that of the moulded part');
  const lacks = [
    heatShort(heat.is, original.heatLimitC.is),
    stiffnessOff(modulus.is, original.flexuralModulusGPa.is),
    impactShort(stepsOver(original.impact.is.grade, impact.is.grade)),
  ].filter((one) => one !== null);
  const heatMargins = [heat.is.low - original.heatLimitC.is.low, heat.is.high - original.heatLimitC.is.high];
  const isFar = lacks.some((one) => one.isFar);
  if (!isFar && !Number.isFinite(modulus.is.high))
    return notKnown(asked, 'how stiff the mixture is beside the moulded part');
  const against =
    lacks.length === 0
      ? 'Near it in heat, stiffness and impact.'
      : `${lacks.map(({ words }) => words).join('. ')}.`;
  return judged(
    asked,
    isFar ? 'does-not-suit' : 'suits-with-limits',
    `${against} Any print bears about half across its layers: turn it so that the load runs along them.`,
    { kind: 'kelvin', low: Math.min(...heatMargins), high: Math.max(...heatMargins), wanted: -HEAT_SHORT_K },
    { source: 'common practice', confidence: 'low' },
  );
}

function heatShort(is: Span, wanted: Span): Shortfall | null {
  const shortK = wanted.low - is.low;
  if (shortK <= HEAT_SHORT_K) return null;
  return {
    words: `Gives way ${Math.round(shortK)} °C below the moulded part's lowest grade`,
    isFar: shortK > 2 * HEAT_SHORT_K,
  };
}

function stiffnessOff(is: Span, wanted: Span): Shortfall | null {
  const softer = wanted.low / is.high;
  const stiffer = is.low / wanted.high;
  const off = Math.max(softer, stiffer);
  if (off <= STIFFNESS_OFF) return null;
  const how = softer > stiffer ? 'softer' : 'stiffer';
  return { words: `At least ${off.toFixed(1)} times ${how}`, isFar: off > STIFFNESS_OFF ** 2 };
}

function impactShort(steps: number): Shortfall | null {
  return steps >= 0
    ? null
    : { words: `Impact ${-steps === 1 ? 'a grade' : `${-steps} grades`} lower`, isFar: steps < -1 };
}
