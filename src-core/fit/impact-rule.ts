import type { Application, Judgement } from '../contract/material-fit.ts';
import { coldestC, FREEZING_C } from './cold.ts';
import { stepsOver } from './grade.ts';
import { judgeGrade, notKnown, type Asked } from './judged.ts';
import { countedAs, type MaterialFacts } from './material-facts.ts';

const QUALITY = 'Impact';
const HINT = 'Thick walls and round corners help.';

/**
 * Knocks want fair, hard blows want good. Below the freezing point the grade in the cold counts as far down as the guide has
 * it; colder than that only "poor" still holds, since cold makes no polymer tougher. What is poor there is brittle and does
 * not suit at all.
 */
export function judgeImpact(facts: MaterialFacts, application: Application): Judgement | null {
  const { impact } = application;
  if (impact === 'none') return null;
  const coldC = coldestC(application);
  const isCold = coldC < FREEZING_C;
  const what = impact === 'knocks' ? 'Knocks' : 'Hard blows';
  const asked = { demand: 'impact', label: isCold ? `${what} at ${coldC} °C` : what } as const;
  const needed = impact === 'knocks' ? 'fair' : 'good';
  return isCold
    ? judgeColdImpact(facts, asked, needed, coldC)
    : judgeGrade(asked, facts.impact, needed, QUALITY, HINT);
}

function judgeColdImpact(
  facts: MaterialFacts,
  asked: Asked,
  needed: 'fair' | 'good',
  coldC: number,
): Judgement {
  const { impact, impactInCold } = facts;
  const known = impactInCold ?? (impact?.is.grade === 'poor' ? impact : null);
  if (!known) return notKnown(asked, `its impact at ${coldC} °C`);
  // A filler may have taken more in the room than the cold takes.
  const worse = impact && stepsOver(known.is.grade, impact.is.grade);
  const fact = worse !== null && worse < 0 ? countedAs(known, worse, 'no tougher than in the room') : known;
  if (fact.is.grade === 'poor') {
    const judgement = judgeGrade(asked, fact, needed, `${QUALITY} in the cold`);
    return { ...judgement, verdict: 'does-not-suit' };
  }
  if (impactInCold && coldC < impactInCold.downToC)
    return notKnown(asked, `its impact below ${impactInCold.downToC} °C`);
  return judgeGrade(asked, fact, needed, `${QUALITY} in the cold`, HINT);
}
