import type { FitVerdict } from '../contract/fit-verdicts.ts';
import type { Application, Judgement } from '../contract/material-fit.ts';
import type { Agent } from '../knowledge/service-schema.ts';
import { judgeGrade } from './judged.ts';
import { countedAs, type MaterialFacts } from './material-facts.ts';
import { fitTexts } from '../words/en/fit.ts';
import { type Message } from '../words/message.ts';

const { m } = fitTexts;

const AGENT_WORDS: Readonly<Record<Agent, { readonly label: Message; readonly words: Message }>> = {
  water: { label: m.waterLabel(), words: m.water() },
  oilsAndFuels: { label: m.oilsAndFuelsLabel(), words: m.oilsAndFuels() },
  alcohols: { label: m.alcoholsLabel(), words: m.alcohols() },
  acids: { label: m.acidsLabel(), words: m.acids() },
  alkalis: { label: m.alkalisLabel(), words: m.alkalis() },
  solvents: { label: m.solventsLabel(), words: m.solvents() },
};

/** Agents act faster in the heat: above this (°C) what is not very good counts a step less. Our estimate. */
export const HOT_AGENT_C = 50;

/** Months of sunlight want good; one step less wants paint, or a part to be replaced. */
export function judgeLight(facts: MaterialFacts, { isOutdoors }: Application): Judgement | null {
  if (!isOutdoors) return null;
  const asked = { demand: 'light', label: m.outdoors() } as const;
  return judgeGrade(
    asked,
    facts.ultraviolet,
    'good',
    { name: m.ultraviolet(), its: m.itsUltraviolet() },
    m.paintIt(),
    facts.whyNotKnown.ultraviolet,
  );
}

/** One judgement for each agent. The grades are for lasting contact, so good is needed; outdoors brings rain. */
export function judgeAgents(facts: MaterialFacts, application: Application): readonly Judgement[] {
  const { isOutdoors, serviceTemperatureC } = application;
  const stated = [...new Set(application.agents)];
  const isRain = isOutdoors && !stated.includes('water');
  const judge = (agent: Agent, isHot: boolean, label: Message, hint: Message) => {
    const fact = facts.agents[agent] ?? null;
    const counted =
      fact && isHot && fact.is.grade !== 'very-good' ? countedAs(fact, -1, m.heatMakesWorse()) : fact;
    const { words } = AGENT_WORDS[agent];
    const quality = { name: m.resistanceTo({ agent: words }), its: m.itsResistanceTo({ agent: words }) };
    return judgeGrade(
      { demand: agent === 'water' ? 'water' : 'chemicals', label },
      counted,
      'good',
      quality,
      hint,
      facts.whyNotKnown[agent],
    );
  };
  return [
    ...(isRain ? [judge('water', false, m.rain(), m.letItDry())] : []),
    ...stated.map((agent) => {
      const { label } = AGENT_WORDS[agent];
      return judge(agent, serviceTemperatureC >= HOT_AGENT_C, label, m.shortContact());
    }),
  ];
}

/** Skin and food: nothing here is proof, so nothing suits outright. */
export function judgeContact(facts: MaterialFacts, { contact }: Application): Judgement | null {
  if (contact === 'none') return null;
  const { filler } = facts;
  const verdict: FitVerdict = filler
    ? filler.irritates
      ? 'does-not-suit'
      : 'not-known'
    : 'suits-with-limits';
  const isFood = contact === 'food';
  const name = filler?.label.toLowerCase() ?? '';
  const reason = filler
    ? filler.irritates
      ? m.irritates({ filler: filler.label })
      : isFood
        ? m.givesOffToFood({ filler: name })
        : m.givesOffToSkin({ filler: name })
    : isFood
      ? m.statementForFood()
      : m.statementForSkin();
  return {
    demand: 'contact',
    label: isFood ? m.touchesFood() : m.touchesSkin(),
    verdict,
    reason: [reason],
    margin: null,
    source: 'common practice',
    confidence: 'low',
  };
}
