import type { Application, Judgement } from '../contract/material-fit.ts';
import { ROOM_C } from './cold.ts';
import { judgeGrade } from './judged.ts';
import { countedAs, type MaterialFacts } from './material-facts.ts';
import { fitTexts } from '../words/en/fit.ts';
import { celsius } from '../words/message.ts';

const { m } = fitTexts;

/**
 * A load that never lets go against the grade of creep: light wants fair, heavy wants good. A polymer that is glassy at room
 * temperature and warmer than its glass transition in service creeps faster and is graded a step lower.
 */
export function judgeSteadyLoad(
  facts: MaterialFacts,
  { steadyLoad, serviceTemperatureC }: Application,
): Judgement | null {
  if (steadyLoad === 'none') return null;
  const asked = {
    demand: 'steady-load',
    label: steadyLoad === 'light' ? m.lightSteadyLoad() : m.heavySteadyLoad(),
  } as const;
  const glass = facts.glassTransitionC?.is.low ?? Number.NEGATIVE_INFINITY;
  const isAboveGlass = glass > ROOM_C && serviceTemperatureC >= glass;
  const creep =
    facts.creep && isAboveGlass
      ? countedAs(facts.creep, -1, m.warmerThanGlass({ temperature: celsius(glass) }))
      : facts.creep;
  const needed = steadyLoad === 'light' ? 'fair' : 'good';
  const hint = m.belowQuarter();
  return judgeGrade(asked, creep, needed, { name: m.creep(), its: m.itsCreep() }, hint);
}
