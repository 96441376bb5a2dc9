import type { Judgement } from '../contract/material-fit.ts';
import { stepsOver } from './grade.ts';
import { judged, notKnown } from './judged.ts';
import type { MaterialFacts, Span } from './material-facts.ts';
import { fitTexts } from '../words/en/fit.ts';
import { fixed, kelvin, type Message } from '../words/message.ts';

const { m } = fitTexts;

/** Heat limit lower by this many kelvin counts as short; by twice as many as far short. Our estimate. */
const HEAT_SHORT_K = 10;
/** Stiffness off by this factor counts as off; by its square as far off. Our estimate. */
const STIFFNESS_OFF = 1.5;

/** "Short" of the moulded part, "far" short, or as good. */
interface Shortfall {
  readonly words: Message;
  readonly isFar: boolean;
}

/**
 * A print against the moulded part that it stands in for: heat limit, stiffness and impact beside those of its polymer. A
 * print never suits without limits, as it bears about half across its layers (common practice).
 */
export function judgeStandIn(facts: MaterialFacts, original: MaterialFacts): Judgement {
  const asked = { demand: 'stand-in', label: m.inPlaceOf({ label: original.label }) } as const;
  const { heatLimitC: heat, flexuralModulusGPa: modulus, impact } = facts;
  if (!heat || !original.heatLimitC) return notKnown(asked, m.heatBeside());
  if (!modulus || !original.flexuralModulusGPa) return notKnown(asked, m.stiffnessBeside());
  if (!impact || !original.impact) return notKnown(asked, m.impactBeside());
  const lacks = [
    heatShort(heat.is, original.heatLimitC.is),
    stiffnessOff(modulus.is, original.flexuralModulusGPa.is),
    impactShort(stepsOver(original.impact.is.grade, impact.is.grade)),
  ].filter((one) => one !== null);
  const heatMargins = [heat.is.low - original.heatLimitC.is.low, heat.is.high - original.heatLimitC.is.high];
  const isFar = lacks.some((one) => one.isFar);
  if (!isFar && !Number.isFinite(modulus.is.high)) return notKnown(asked, m.howStiffBeside());
  const against = lacks.length === 0 ? [m.nearInAll()] : lacks.map(({ words }) => words);
  return judged(
    asked,
    isFar ? 'does-not-suit' : 'suits-with-limits',
    [...against, m.halfAcross()],
    { kind: 'kelvin', low: Math.min(...heatMargins), high: Math.max(...heatMargins), wanted: -HEAT_SHORT_K },
    { source: 'common practice', confidence: 'low' },
  );
}

function heatShort(is: Span, wanted: Span): Shortfall | null {
  const shortK = wanted.low - is.low;
  if (shortK <= HEAT_SHORT_K) return null;
  return {
    words: m.givesWayBelow({ by: kelvin(Math.round(shortK)) }),
    isFar: shortK > 2 * HEAT_SHORT_K,
  };
}

function stiffnessOff(is: Span, wanted: Span): Shortfall | null {
  const softer = wanted.low / is.high;
  const stiffer = is.low / wanted.high;
  const off = Math.max(softer, stiffer);
  if (off <= STIFFNESS_OFF) return null;
  const times = fixed(off, 1);
  return {
    words: softer > stiffer ? m.timesSofter({ times }) : m.timesStiffer({ times }),
    isFar: off > STIFFNESS_OFF ** 2,
  };
}

function impactShort(steps: number): Shortfall | null {
  return steps >= 0 ? null : { words: m.impactLower({ count: -steps }), isFar: steps < -1 };
}
