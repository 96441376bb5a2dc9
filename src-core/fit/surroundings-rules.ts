import type { FitVerdict } from '../contract/fit-verdicts.ts';
import type { Application, Judgement } from '../contract/material-fit.ts';
import type { Agent } from '../knowledge/service-schema.ts';
import { judgeGrade } from './judged.ts';
import { countedAs, type MaterialFacts } from './material-facts.ts';

const AGENT_WORDS: Readonly<Record<Agent, string>> = {
  water: 'water and damp',
  oilsAndFuels: 'oils and fuels',
  alcohols: 'alcohols',
  acids: 'acids',
  alkalis: 'alkalis',
  solvents: 'solvents',
};

/** Agents act faster in the heat: above this (°C) what is not very good counts a step less. Our estimate. */
export const HOT_AGENT_C = 50;

/** Months of sunlight want good; one step less wants paint, or a part to be replaced. */
export function judgeLight(facts: MaterialFacts, { isOutdoors }: Application): Judgement | null {
  if (!isOutdoors) return null;
  const asked = { demand: 'light', label: 'Outdoors in the light' } as const;
  return judgeGrade(
    asked,
    facts.ultraviolet,
    'good',
    'Resistance to ultraviolet',
    'Paint it, or plan to replace it.',
    facts.whyNotKnown.ultraviolet,
  );
}

/** One judgement for each agent. The grades are for lasting contact, so good is needed; outdoors brings rain. */
export function judgeAgents(facts: MaterialFacts, application: Application): readonly Judgement[] {
  const { isOutdoors, serviceTemperatureC } = application;
  const stated = [...new Set(application.agents)];
  const isRain = isOutdoors && !stated.includes('water');
  const judge = (agent: Agent, isHot: boolean, label: string, hint: string) => {
    const fact = facts.agents[agent] ?? null;
    const counted =
      fact && isHot && fact.is.grade !== 'very-good' ? countedAs(fact, -1, 'heat makes it worse') : fact;
    const quality = `Resistance to ${AGENT_WORDS[agent]}`;
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
    ...(isRain ? [judge('water', false, 'Rain', 'Let it dry between rains.')] : []),
    ...stated.map((agent) => {
      const words = AGENT_WORDS[agent];
      const label = `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
      const hint = 'Short contact only, without stress in the part.';
      return judge(agent, serviceTemperatureC >= HOT_AGENT_C, label, hint);
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
  const about = contact === 'food' ? 'food' : 'skin';
  const reason = filler
    ? filler.irritates
      ? `${filler.label} works out of the surface and irritates.`
      : `Not known what ${filler.label.toLowerCase()} gives off to ${about}.`
    : `Only with the maker's statement for ${about} on this very filament, colour included; gaps between lines cannot be cleaned.`;
  return {
    demand: 'contact',
    label: contact === 'food' ? 'Touches food' : 'Lasting contact with skin',
    verdict,
    reason,
    margin: null,
    source: 'common practice',
    confidence: 'low',
  };
}
