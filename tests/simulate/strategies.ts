import { infer } from '../../src-core/inference/index.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { strengthProbability } from '../../src-core/knowledge/scale.ts';
import type { CaseContext } from '../../src-core/session/case-machine.ts';
import { caseProblem, type CaseProblem } from '../../src-core/session/case-problem.ts';
import { planOf, reasonAbout, remedyMinutes } from '../../src-core/session/reason-about.ts';
import type { TrainingActionInput } from '../../src-core/contract/training-view.ts';

/** What somebody who works this way does next; null when they give up and call the lead. */
export type Strategy = (
  knowledge: Knowledge,
  context: CaseContext,
  trueCauses: readonly string[],
) => TrainingActionInput | null;

/** Our planner: the least expected minutes to a cure. */
export const planner: Strategy = (knowledge, context) => {
  const { next } = reasonAbout(knowledge, context);
  if (next.kind === 'check') return { kind: 'check', observation: next.id };
  return next.kind === 'remedy' ? { kind: 'remedy', remedy: next.id } : null;
};

const CHECKLIST_LENGTH = 8;

/** A printed checklist: the quickest checks of the complaint's place from top to bottom, then the likeliest remedies. */
export const checklist: Strategy = (knowledge, context) => {
  const place = knowledge.observations.get(context.intake?.complaints[0]?.observation ?? '')?.place;
  const list = [...knowledge.observations.values()]
    .filter((one) => one.place === place)
    .sort((a, b) => a.check.minutes - b.check.minutes || a.id.localeCompare(b.id))
    .slice(0, CHECKLIST_LENGTH);
  const open = list.find((one) => context.findings[one.id] === undefined);
  return open ? { kind: 'check', observation: open.id } : mostProbable(knowledge, context, []);
};

/** No checks: the remedy for whatever is most probable. */
export const mostProbable: Strategy = (knowledge, context) =>
  remedyForFirst(knowledge, context, posterior(caseProblem(knowledge, context)));

/**
 * One fault only, findings independent given it: the usual short cut. Remedies by chance over cost; no value of a check,
 * so it asks what tells its two first candidates apart until one has 60 %.
 */
export const naiveBayes: Strategy = (knowledge, context) => {
  const problem = caseProblem(knowledge, context);
  const probabilities = singleFaultPosterior(problem);
  const [first = 0, second = 1] = order(probabilities);
  if ((probabilities[first] ?? 0) < 0.6) {
    const check = problem.checks
      .map((open) => ({
        id: open.id,
        worth:
          Math.abs(
            presentChance(problem, open.observation, first) -
              presentChance(problem, open.observation, second),
          ) / Math.sqrt(open.minutes),
      }))
      .sort((a, b) => b.worth - a.worth)[0];
    if (check && check.worth > 0.05 && Object.keys(context.findings).length < 14)
      return { kind: 'check', observation: check.id };
  }
  return remedyForFirst(knowledge, context, probabilities);
};

/** Asks whatever tells most (bits) until one cause has 80 % or nothing tells much; cost plays no part. */
export const entropyOnly: Strategy = (knowledge, context) => {
  const problem = caseProblem(knowledge, context);
  const probabilities = posterior(problem);
  const plan = planOf(problem);
  if (plan.kind === 'ok' && Math.max(...probabilities) < 0.8 && Object.keys(context.findings).length < 14) {
    const best = [...plan.next.checks].sort((a, b) => b.informationBits - a.informationBits)[0];
    if (best && best.informationBits > 0.02)
      return { kind: 'check', observation: problem.checks[best.check]?.id ?? '' };
  }
  return remedyForFirst(knowledge, context, probabilities);
};

/** Knows the truth: the best remedy for a true cause at once. What no planner can beat. */
export const fullInformation: Strategy = (knowledge, context, trueCauses) => {
  const probabilities = [...knowledge.causes.keys()].map((id) => (trueCauses.includes(id) ? 1 : 0));
  return remedyForFirst(knowledge, context, probabilities);
};

function posterior(problem: CaseProblem): number[] {
  const found = infer(problem.model, problem.priors, problem.evidence, { history: problem.history });
  return found.kind === 'ok' ? [...found.causes] : [...problem.priors];
}

function order(probabilities: readonly number[]): number[] {
  return probabilities
    .map((_, index) => index)
    .sort((a, b) => (probabilities[b] ?? 0) - (probabilities[a] ?? 0));
}

/** The untried remedy with the best chance over cost for the most probable cause that has one. */
function remedyForFirst(
  knowledge: Knowledge,
  context: CaseContext,
  probabilities: readonly number[],
): TrainingActionInput | null {
  const ids = [...knowledge.causes.keys()];
  const tried = new Set(context.tried.map((one) => one.remedy));
  for (const index of order(probabilities)) {
    if (!((probabilities[index] ?? 0) > 0)) break;
    const best = [...knowledge.remedies.values()]
      .filter((remedy) => !tried.has(remedy.id))
      .flatMap((remedy) => {
        const removal = remedy.removes.find((one) => one.cause === ids[index]);
        return removal
          ? [{ remedy, worth: strengthProbability(removal.chance) / remedyMinutes(knowledge, remedy.id) }]
          : [];
      })
      .sort((a, b) => b.worth - a.worth)[0];
    if (best) return { kind: 'remedy', remedy: best.remedy.id };
  }
  return null;
}

function presentChance(problem: CaseProblem, observation: number, cause: number): number {
  return (
    1 -
    levelChances(problem, observation, cause).reduce(
      (least, value, level) => (level === 0 ? value : least),
      1,
    )
  );
}

/** P(level of an observation | this cause alone), its mechanisms included to first order. */
function levelChances({ model }: CaseProblem, observation: number, cause: number): number[] {
  const gate = model.observations[observation];
  if (!gate) return [1];
  const atMost = gate.leak.map((_, level) => {
    let product = sumTo(gate.leak, level);
    for (const link of gate.links) {
      const share =
        link.from.kind === 'cause'
          ? Number(link.from.index === cause)
          : (model.mechanisms[link.from.index]?.links.find((one) => one.cause === cause)?.probability ?? 0);
      product *= 1 - share + share * sumTo(link.levels, level);
    }
    return product;
  });
  return atMost.map((value, level) => Math.max(1e-6, value - (atMost[level - 1] ?? 0)));
}

function singleFaultPosterior(problem: CaseProblem): number[] {
  const tried = problem.history.tries.filter((one) => one.outcome !== 'cured');
  const logs = problem.priors.map((prior, cause) => {
    let log = Math.log(prior);
    for (const finding of problem.evidence) {
      if (finding.kind === 'level')
        log += Math.log(levelChances(problem, finding.observation, cause)[finding.level] ?? 1e-6);
    }
    for (const { removal } of tried)
      log += Math.log(1 - (removal.find((one) => one.cause === cause)?.probability ?? 0) + 1e-6);
    return log;
  });
  const largest = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - largest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

function sumTo(values: readonly number[], last: number): number {
  return values.slice(0, last + 1).reduce((sum, value) => sum + value, 0);
}
