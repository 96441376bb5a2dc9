import {
  PosteriorCache,
  infer,
  posteriorOf as posteriorOfBelief,
  predict,
  type GraphModel,
  type Posterior,
  type WidthLimits,
} from '../inference/index.ts';
import type { ShopCosts } from '../contract/shop-costs.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { type CasePlan, DEFAULT_SERVICE, planCase, QUICK_CHECKS } from '../planning/index.ts';
import { caseProblem, type CaseProblem } from './case-problem.ts';
import type { CaseContext } from './case-machine.ts';
import type { CaseReasoning } from './case-reasoning.ts';
import { accountedFor } from './accounted-for.ts';
import { beforeThePlan, firstToFront, LEAST_HOPE, type Steps } from './before-the-plan.ts';
import { dangerSignsIn } from './danger-signs.ts';
import { conflictOf, reasonsFor } from './reasons.ts';

export { remedyMinutes } from './case-problem.ts';

const CHECKS_WITHOUT_COMPLAINT = 12;
/** One memory a guide: answers of a case come one at a time, and most of what the next needs is known by then. */
const memories = new WeakMap<GraphModel, PosteriorCache>();

function memoryOf(model: GraphModel): PosteriorCache {
  const memory = memories.get(model) ?? new PosteriorCache(model);
  memories.set(model, memory);
  return memory;
}

/** Causes with their probabilities, most probable first; nothing else is worked out. */
export function rankCauses(
  knowledge: Knowledge,
  context: CaseContext,
): { cause: string; probability: number }[] {
  const problem = caseProblem(knowledge, context);
  return rank(knowledge, problem, posteriorOf(problem));
}

/**
 * Everything that inference and planning say about a case. Pure: the same case gives the same answer, whatever
 * `memory` holds. Costs count in minutes of work: see {@link caseProblem}.
 */
export function reasonAbout(
  knowledge: Knowledge,
  context: CaseContext,
  memoryAtHand: PosteriorCache | null = null,
  costs: ShopCosts | null = null,
): CaseReasoning {
  const problem = caseProblem(knowledge, context, costs);
  const memory = memoryAtHand ?? memoryOf(problem.model);
  const { belief } = problem;
  memory.take(problem.priors, problem.evidence, belief);
  const posterior = posteriorOf(problem);
  const { because } = reasonsFor(problem, false, { memory, posterior });
  const plan = problem.complaint.length === 0 || isDangerous(knowledge, context) ? null : planOf(problem);
  const ranked = rank(knowledge, problem, posterior);
  return {
    // Of the probabilities. A plan may rest on fewer findings than these.
    setAside: problem.setAside.flatMap((index) => knowledge.graph.observations[index]?.id ?? []),
    candidates: ranked.map((one) => ({
      ...one,
      because: because[knowledge.causeIndex.get(one.cause) ?? -1] ?? [],
    })),
    conflict: conflictOf(problem, memory),
    mainComplaint: knowledge.graph.observations[problem.complaint[0] ?? -1]?.id ?? null,
    background: backgroundOf(knowledge, problem, posterior),
    ...stepsFor(knowledge, context, problem, plan, ranked),
  };
}

/**
 * A plan runs the network a hundred times and more: past this it rests on fewer findings, and says so, where the posterior
 * still takes in all of them.
 */
const PLAN_LIMITS: WidthLimits = { tableEntries: 2 ** 14, terms: 2 ** 19 };

export function planOf(problem: CaseProblem): CasePlan {
  const { belief } = problem;
  const isSmall = belief?.branches.every(({ circuit }) => circuit.terms <= PLAN_LIMITS.terms) === true;
  return planCase({
    model: problem.model,
    priors: problem.priors,
    evidence: problem.evidence,
    complaint: problem.complaint,
    remedies: problem.remedies,
    checks: problem.checks,
    preparations: problem.preparations,
    prepared: problem.prepared,
    inference: { history: problem.history, limits: PLAN_LIMITS },
    quickChecks: QUICK_CHECKS,
    ...(belief && isSmall && { network: belief }),
  });
}

/** Bounds in place of figures where not even the main complaint can be reckoned with exactly. */
export function posteriorOf({ model, priors, evidence, history, belief }: CaseProblem): Posterior {
  return belief ? posteriorOfBelief(belief) : infer(model, priors, evidence, { history });
}

/**
 * Causes by the probability that each accounts for the complaint, most probable first; with several complaints the mean of
 * what it accounts for of each (`accountedFor`). Findings that cannot all be true leave the priors standing, with the conflict
 * flagged.
 */
function rank(
  knowledge: Knowledge,
  { model, priors, unknowns, complaints }: CaseProblem,
  posterior: Posterior,
): { cause: string; probability: number }[] {
  const probabilities = posterior.kind === 'ok' ? posterior.causes : priors;
  const accounted = accountedFor(model, complaints, probabilities);
  const [unknown] = unknowns;
  if (unknown !== undefined)
    accounted[unknown] = unknowns.reduce((sum, hypothesis) => sum + (accounted[hypothesis] ?? 0), 0);
  const isComplained = complaints.length > 0;
  return [...knowledge.causes.keys()]
    .map((cause, index) => {
      const probability = (isComplained ? accounted : probabilities)[index] ?? 0;
      return { cause, probability: Math.min(1, Math.max(0, probability)) };
    })
    .sort((a, b) => b.probability - a.probability);
}

/** Less likely than this, or hardly likelier than before the findings, is not worth a line beside the candidates. */
const LEAST_BACKGROUND = 0.1;

/** What else may be wrong without holding the complaint up, likeliest first. */
function backgroundOf(
  knowledge: Knowledge,
  problem: CaseProblem,
  posterior: Posterior,
): CaseReasoning['background'] {
  const { rankedCauses } = problem.model;
  if (rankedCauses === undefined || posterior.kind !== 'ok') return [];
  return [...knowledge.causes.keys()]
    .map((cause, index) => ({
      cause,
      probability: Math.min(1, posterior.causes[rankedCauses + index] ?? 0),
      before: problem.priors[rankedCauses + index] ?? 0,
    }))
    .filter(({ probability, before }) => probability >= LEAST_BACKGROUND && probability > 1.5 * before)
    .sort((a, b) => b.probability - a.probability)
    .map(({ cause, probability }) => ({ cause, probability }));
}

/**
 * Nothing is known to be wrong, so there is nothing to repair yet: look first where trouble is most likely to show.
 * Checks are ranked by the chance that their complaint is found.
 */
function stepsWithoutComplaint(knowledge: Knowledge, problem: CaseProblem): Steps {
  const predicted = predict(problem.model, problem.priors, problem.evidence);
  const foundChance = (observation: number) =>
    predicted.kind === 'ok' ? 1 - (predicted.levels[observation]?.[0] ?? 1) : 0;
  const { minutes: service } = DEFAULT_SERVICE;
  const checks = problem.checks
    .filter((check) => knowledge.observations.get(check.id)?.complaint)
    .sort((a, b) => foundChance(b.observation) - foundChance(a.observation))
    .slice(0, CHECKS_WITHOUT_COMPLAINT)
    .map(({ id, minutes }) => ({
      observation: id,
      minutes,
      netValueOfInformationMinutes: 0,
      expectedCostAfter: service,
    }));
  const [first] = checks;
  return {
    expectedCostNow: service,
    next: first
      ? { kind: 'check', id: first.observation, minutes: first.minutes, expectedCostOfRepair: service }
      : { kind: 'hand-over', id: 'lead', minutes: service, expectedCostOfRepair: service },
    checks,
    remedies: [],
  };
}

/** A danger sign is there, and nobody qualified has taken over. */
function isDangerous(knowledge: Knowledge, context: CaseContext): boolean {
  return context.takenOverBy === null && dangerSignsIn(knowledge, context.findings).length > 0;
}

function stepsFor(
  knowledge: Knowledge,
  context: CaseContext,
  problem: CaseProblem,
  plan: CasePlan | null,
  ranked: ReturnType<typeof rank>,
): Steps {
  if (isDangerous(knowledge, context)) return stepsInDanger();
  if (!plan) return stepsWithoutComplaint(knowledge, problem);
  return beforeThePlan({ knowledge, context, problem, plan, ranked }, stepsOf(problem, plan));
}

/** Power off, photograph, hand over: after a danger sign nothing is proposed that powers, heats or touches live parts. */
function stepsInDanger(): Steps {
  const { minutes } = DEFAULT_SERVICE;
  return {
    expectedCostNow: minutes,
    next: { kind: 'hand-over', id: 'qualified-person', minutes, expectedCostOfRepair: minutes },
    checks: [],
    remedies: [],
  };
}

function stepsOf(problem: CaseProblem, plan: CasePlan): Steps {
  if (plan.kind !== 'ok') {
    // Nothing is wrong any more, or the findings exclude each other, or the network is too wide: a person decides.
    const { minutes } = DEFAULT_SERVICE;
    return {
      expectedCostNow: minutes,
      next: { kind: 'hand-over', id: plan.kind, minutes, expectedCostOfRepair: minutes },
      checks: [],
      remedies: [],
    };
  }
  const { act, checks, remedies } = plan.next;
  const idOfRemedy = (index: number) => problem.remedies[index]?.id ?? '';
  const offers = remedies.map((offer) => ({
    remedy: idOfRemedy(offer.remedy),
    repairProbability: Math.min(1, plan.cureProbability(offer.remedy)),
    minutes: offer.minutes,
  }));
  return {
    expectedCostNow: act.expectedMinutes,
    next: nextOf(problem, plan),
    checks: checks.map((check) => ({
      observation: problem.checks[check.check]?.id ?? '',
      minutes: check.minutes,
      netValueOfInformationMinutes: act.expectedMinutes - check.expectedMinutes,
      expectedCostAfter: check.expectedMinutes,
    })),
    remedies: firstToFront(hopefulFirst(offers), act.kind === 'remedy' ? idOfRemedy(act.remedy) : ''),
  };
}

function nextOf(problem: CaseProblem, plan: Extract<CasePlan, { kind: 'ok' }>): CaseReasoning['next'] {
  const { best } = plan.next;
  const expectedCostOfRepair = best.expectedMinutes;
  if (best.kind === 'check') {
    const check = problem.checks[best.check];
    const minutes = plan.next.checks.find((one) => one.check === best.check)?.minutes ?? check?.minutes ?? 0;
    return { kind: 'check', id: check?.id ?? '', minutes, expectedCostOfRepair };
  }
  if (best.kind === 'remedy') {
    const remedy = problem.remedies[best.remedy];
    return { kind: 'remedy', id: remedy?.id ?? '', minutes: remedy?.minutes ?? 0, expectedCostOfRepair };
  }
  return { kind: 'hand-over', id: 'lead', minutes: expectedCostOfRepair, expectedCostOfRepair };
}

/** Trying what hardly ever helps costs next to nothing before the rest, but it is not what anybody wants to read first. */
function hopefulFirst<T extends { readonly repairProbability: number }>(offers: readonly T[]): T[] {
  const isHopeful = (one: T) => one.repairProbability >= LEAST_HOPE;
  return [...offers.filter(isHopeful), ...offers.filter((one) => !isHopeful(one))];
}
