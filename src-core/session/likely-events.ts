import type { CaseEvent } from '../contract/case-event.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseMoment } from './case-flow.ts';
import type { CaseReasoning } from './case-reasoning.ts';
import { questionAbout, questionOf } from './question-view.ts';

/** Outcomes that people mostly tell of a remedy. */
const USUAL_OUTCOMES = ['not-cured', 'cured', 'better'] as const;

/**
 * What a case as it stands is most likely told next and would have to be reasoned about: the answers to the question that is
 * shown, that it cannot be told or is passed over, what the remedy at hand did, or that no danger sign is there. A measured
 * value is foreseen by its bands. Nothing of a case whose findings are too wide to be reckoned with
 * together: to find out which to leave out takes seconds.
 */
export function likelyEvents(
  knowledge: Knowledge,
  moment: CaseMoment,
  reasoning: CaseReasoning,
): readonly CaseEvent[] {
  const { state, context } = moment;
  if (reasoning.setAside.length > 0) return [];
  switch (state) {
    case 'stop-now':
      return [{ kind: 'danger-answered', present: [] }];
    case 'verification':
      return USUAL_OUTCOMES.map((outcome) => ({ kind: 'verified', outcome }));
    case 'checking': {
      const observation = questionOf(moment, reasoning);
      if (observation === null || !knowledge.observations.has(observation)) return [];
      const { answers } = questionAbout(knowledge, observation, context.conditions, null);
      return [
        ...answers.map(({ value }): CaseEvent => ({ kind: 'answered', observation, value })),
        { kind: 'could-not-tell', observation },
        { kind: 'skipped', observation },
      ];
    }
    default:
      return [];
  }
}
