import { decibansOf, rivalry, tippingPoints, type ModelWeight } from '../inference/index.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseContext } from './case-machine.ts';
import { caseProblem, type CaseProblem } from './case-problem.ts';

/** What stands against the first candidate, in the guide's ids. */
export interface SecondThoughts {
  readonly first: string;
  /** The two strongest rivals, each with the check that best tells it from the first; null when none does. */
  readonly rivals: readonly {
    readonly cause: string;
    readonly check: { readonly observation: string; readonly minutes: number; readonly bits: number } | null;
  }[];
  /** Answers to open checks after which another cause comes first, most probable first. */
  readonly mindChangers: readonly {
    readonly observation: string;
    readonly value: string;
    readonly probability: number;
    readonly first: string;
    readonly firstProbability: number;
  }[];
  /** Estimates of the guide that would tip the ranking if they moved, the nearest first. */
  readonly weights: readonly {
    readonly from: string;
    /** Null for the prior of `from`. */
    readonly to: string | null;
    readonly probability: number;
    readonly tipsAt: number;
    readonly decibans: number;
    readonly rival: string;
  }[];
}

const SHOWN_ANSWERS = 8;
const SHOWN_WEIGHTS = 8;

/** Null when nothing can be said: findings that exclude each other, or too wide a network. Takes some 0.2 s. */
export function secondThoughts(knowledge: Knowledge, context: CaseContext): SecondThoughts | null {
  const problem = caseProblem(knowledge, context);
  const { model, priors, evidence, history, checks } = problem;
  const open = checks.map((check) => check.observation);
  const rivals = rivalry(model, priors, evidence, open, { history });
  const tipping = tippingPoints(model, priors, evidence, { history });
  if (rivals.kind !== 'ok' || tipping.kind !== 'ok') return null;
  const cause = (index: number) => model.causes[index]?.id ?? '';
  return {
    first: cause(tipping.first),
    rivals: rivals.rivals.map(({ cause: rival, apart: [best] }) => ({
      cause: cause(rival),
      check: best ? { ...checkOf(problem, best.observation), bits: best.bits } : null,
    })),
    mindChangers: rivals.mindChangers
      .slice(0, SHOWN_ANSWERS)
      .map(({ observation, level, probability, first, firstProbability }) => {
        const { observation: id } = checkOf(problem, observation);
        const value = knowledge.levelsOf(id)[level] ?? '';
        return { observation: id, value, probability, first: cause(first), firstProbability };
      }),
    weights: tipping.points
      .slice(0, SHOWN_WEIGHTS)
      .map(({ weight, probability, tipsAt, logOddsMove, rival }) => ({
        ...endsOf(problem, weight),
        probability,
        tipsAt,
        decibans: decibansOf(logOddsMove),
        rival: cause(rival),
      })),
  };
}

function checkOf(
  { checks, model }: CaseProblem,
  observation: number,
): { observation: string; minutes: number } {
  return {
    observation: model.observations[observation]?.id ?? '',
    minutes: checks.find((check) => check.observation === observation)?.minutes ?? 0,
  };
}

function endsOf({ model }: CaseProblem, weight: ModelWeight): { from: string; to: string | null } {
  switch (weight.kind) {
    case 'prior':
      return { from: model.causes[weight.cause]?.id ?? '', to: null };
    case 'drive':
      return {
        from: model.causes[weight.cause]?.id ?? '',
        to: model.mechanisms[weight.mechanism]?.id ?? '',
      };
    case 'sign': {
      const { kind, index } = weight.from;
      return {
        from: (kind === 'cause' ? model.causes : model.mechanisms)[index]?.id ?? '',
        to: model.observations[weight.observation]?.id ?? '',
      };
    }
  }
}
