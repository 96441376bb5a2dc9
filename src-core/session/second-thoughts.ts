import { valueTexts } from '../words/en/values.ts';
import type { SecondThoughts } from '../contract/second-thoughts-view.ts';
import { rivalry } from '../differential/case-rivals.ts';
import { quickestTelling } from '../differential/telling-apart.ts';
import {
  decibansOf,
  infer,
  sensitivityThresholds,
  topExplanations,
  type ModelWeight,
} from '../inference/index.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseContext } from './case-machine.ts';
import { caseProblem, type CaseProblem } from './case-problem.ts';
import { causeLabel, observationLabel, valueLabel } from './wording.ts';
import type { Words } from '../words/message.ts';

const SHOWN_ANSWERS = 8;
const SHOWN_WEIGHTS = 8;
const SHOWN_EXPLANATIONS = 5;
/** A set of causes less probable than this is no explanation worth a line. */
const LEAST_EXPLANATION = 0.005;

/** Null when nothing can be said: findings that exclude each other, or too wide a network. Takes some 0.2 s: not for the answer path. */
export function secondThoughts(knowledge: Knowledge, context: CaseContext): SecondThoughts | null {
  const problem = caseProblem(knowledge, context);
  const { model, priors, evidence, history, checks } = problem;
  const open = checks.map((check) => check.observation);
  const rivals = rivalry(model, priors, evidence, open, { history });
  const tipping = sensitivityThresholds(model, priors, evidence, { history });
  if (rivals.kind !== 'ok' || tipping.kind !== 'ok') return null;
  const posterior = infer(model, priors, evidence, { history });
  if (posterior.kind !== 'ok') return null;
  const explained = topExplanations(model, priors, evidence, SHOWN_EXPLANATIONS, { history });
  const cause = (index: number) => {
    const id = model.causes[index]?.id ?? '';
    return { cause: id, label: causeLabel(knowledge, id) };
  };
  return {
    first: cause(tipping.first),
    explanations: (explained.kind === 'ok' ? explained.explanations : [])
      .filter(({ causes, probability }) => causes.length > 0 && probability >= LEAST_EXPLANATION)
      .map(({ causes, probability }) => ({ causes: causes.map(cause), probability: within(probability) })),
    rivals: rivals.rivals.map(({ cause: rival, apart }) => {
      const [best] = quickestTelling(apart, (observation) => minutesOf(problem, observation));
      return {
        ...cause(rival),
        probability: within(posterior.causes[rival] ?? 0),
        check: best ? checkOf(knowledge, problem, best.observation) : null,
      };
    }),
    decisionChangingFindings: rivals.decisionChangingFindings
      .slice(0, SHOWN_ANSWERS)
      .map(({ observation, level, probability, first, firstProbability }) => {
        const { observation: id, label } = checkOf(knowledge, problem, observation);
        const value = valueLabel(knowledge, id, knowledge.levelsOf(id)[level] ?? '');
        return {
          observation: id,
          label,
          value,
          probability: within(probability),
          first: cause(first),
          firstProbability: within(firstProbability),
        };
      }),
    weights: tipping.points
      .slice(0, SHOWN_WEIGHTS)
      .map(({ weight, probability, tipsAt, logOddsMove, rival }) => ({
        label: labelOf(knowledge, problem, weight),
        probability: within(probability),
        tipsAt: within(tipsAt),
        decibans: decibansOf(logOddsMove),
        rival: cause(rival),
      })),
  };
}

/** Rounding may leave a sum a hair outside. */
function within(probability: number): number {
  return Math.min(1, Math.max(0, probability));
}

function checkOf(
  knowledge: Knowledge,
  problem: CaseProblem,
  index: number,
): { observation: string; label: string; minutes: number } {
  const observation = problem.model.observations[index]?.id ?? '';
  return {
    observation,
    label: observationLabel(knowledge, observation),
    minutes: minutesOf(problem, index),
  };
}

/** What the weight joins, in the guide's labels. */
function labelOf(knowledge: Knowledge, { model }: CaseProblem, weight: ModelWeight): Words {
  const cause = (index: number) => causeLabel(knowledge, model.causes[index]?.id ?? '');
  const mechanism = (index: number) => {
    const id = model.mechanisms[index]?.id ?? '';
    return knowledge.mechanisms.get(id)?.label ?? id;
  };
  switch (weight.kind) {
    case 'prior':
      return valueTexts.m.beforeAnything({ cause: cause(weight.cause) });
    case 'drive':
      return `${cause(weight.cause)} → ${mechanism(weight.mechanism)}`;
    case 'sign': {
      const { kind, index } = weight.from;
      const observation = model.observations[weight.observation]?.id ?? '';
      return `${(kind === 'cause' ? cause : mechanism)(index)} → ${observationLabel(knowledge, observation)}`;
    }
  }
}

function minutesOf({ checks }: CaseProblem, observation: number): number {
  return checks.find((check) => check.observation === observation)?.minutes ?? 0;
}
