import type { Application, Judgement } from '../contract/material-fit.ts';
import { coldestC, FREEZING_C } from './cold.ts';
import { stepsOver } from './grade.ts';
import { judgeGrade, notKnown, type Asked, type Quality } from './judged.ts';
import { countedAs, type MaterialFacts } from './material-facts.ts';
import { fitTexts } from '../words/en/fit.ts';
import { celsius } from '../words/message.ts';

const { m } = fitTexts;

const QUALITY: Quality = { name: m.impact(), its: m.itsImpact() };
const IN_COLD: Quality = { name: m.impactInCold(), its: m.itsImpactInCold() };
const HINT = m.thickWalls();

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
  const what = impact === 'knocks' ? m.knocks() : m.hardBlows();
  const asked = {
    demand: 'impact',
    label: isCold ? m.atTemperature({ what, temperature: celsius(coldC) }) : what,
  } as const;
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
  if (!known) return notKnown(asked, m.itsImpactAt({ temperature: celsius(coldC) }));
  // A filler may have taken more in the room than the cold takes.
  const worse = impact && stepsOver(known.is.grade, impact.is.grade);
  const fact = worse !== null && worse < 0 ? countedAs(known, worse, m.noTougherThanInRoom()) : known;
  if (fact.is.grade === 'poor') {
    const judgement = judgeGrade(asked, fact, needed, IN_COLD);
    return { ...judgement, verdict: 'does-not-suit' };
  }
  if (impactInCold && coldC < impactInCold.downToC)
    return notKnown(asked, m.itsImpactBelow({ temperature: celsius(impactInCold.downToC) }));
  return judgeGrade(asked, fact, needed, IN_COLD, HINT);
}
