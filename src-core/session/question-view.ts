import { valueTexts } from '../words/en/values.ts';
import type { Question } from '../contract/case-view.ts';
import { cautionsOf } from '../knowledge/cautions.ts';
import type { Conditions } from '../knowledge/conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseMoment } from './case-flow.ts';
import type { CaseReasoning } from './case-reasoning.ts';
import { fillText } from './filled-text.ts';

/** The observation that is asked for: what somebody wants to look at, or else what comes next; null where nothing is asked. */
export function questionOf({ state, context }: CaseMoment, { next }: CaseReasoning): string | null {
  if (state !== 'checking') return null;
  return context.wanted ?? (next.kind === 'check' ? next.id : null);
}

/** The question about one observation, with everything needed to find the answer; requires a known id. */
export function questionAbout(
  knowledge: Knowledge,
  observationId: string,
  conditions: Conditions,
  answered: string | number | null,
): Question {
  const observation = knowledge.observations.get(observationId);
  if (!observation) throw new Error(`no observation "${observationId}"`);
  const { check, measure } = observation;
  const answers = observation.grades
    ? observation.grades.map(({ id, label }) => ({ value: id, label }))
    : measure
      ? measure.bands.map(({ id, label }) => ({ value: id, label }))
      : [
          { value: 'present', label: valueTexts.m.yes() },
          { value: 'absent', label: valueTexts.m.no() },
        ];
  return {
    observation: observationId,
    label: observation.label,
    ask: fillText(observation.ask, knowledge, conditions),
    kind: observation.kind,
    how: fillText(check.how, knowledge, conditions),
    tools: check.with,
    minutes: check.minutes,
    machine: check.machine,
    countsAsPresent: check.countsAsPresent,
    nullRulesOut: check.nullRulesOut,
    destroysPart: check.destroysPart,
    cautions: cautionsOf(knowledge, check.cautions),
    drawing: observation.drawing ?? null,
    answers,
    measure: measure
      ? { quantity: measure.quantity, unit: measure.unit, min: measure.min, max: measure.max }
      : null,
    answered,
  };
}
