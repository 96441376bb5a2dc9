import type { WhyCandidate, WhyCheck } from '../contract/case-view.ts';
import type { ShopCosts } from '../contract/shop-costs.ts';
import { infer, predict } from '../inference/index.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { strengthProbability } from '../knowledge/scale.ts';
import { caseProblem, type CaseProblem } from './case-problem.ts';
import type { NextStep } from '../planning/index.ts';
import type { CaseContext } from './case-machine.ts';
import { planOf, posteriorOf } from './reason-about.ts';
import { reasonsFor } from './reasons.ts';
import { causeLabel, observationLabel, valueLabel } from './wording.ts';

/** Candidates whose change under each answer is shown. */
const SHOWN_CHANGES = 5;
/** A mechanism less probable than this is no part of the story. */
const LEAST_MECHANISM = 0.05;

/** Why a cause stands where it does: prior, what moved it, findings for and against. Requires a known cause. */
export function whyCandidate(knowledge: Knowledge, context: CaseContext, causeId: string): WhyCandidate {
  const cause = knowledge.causes.get(causeId);
  const index = knowledge.causeIndex.get(causeId);
  if (!cause || index === undefined) throw new Error(`no cause "${causeId}"`);
  const problem = caseProblem(knowledge, context);
  const reasons = reasonsFor(problem, true);
  const posterior = posteriorOf(problem);
  const mechanisms = posterior.kind === 'ok' && posterior.exact ? posterior.mechanisms : null;
  return {
    cause: causeId,
    label: cause.label,
    summary: cause.summary,
    tellApart: cause.tellApart ?? null,
    priorPerHundredCases: cause.prior.perHundredCases,
    priorSource: cause.prior.source,
    shifts: problem.shifts
      .filter((shift) => shift.cause === causeId)
      .map(({ because, timesOdds, source }) => ({
        because,
        timesOdds,
        decibans: 10 * Math.log10(timesOdds),
        source,
      })),
    prior: problem.causePriors[index] ?? 0,
    priorAtWork: problem.priors[index] ?? 0,
    reasons: (reasons.because[index] ?? []).map(({ finding, decibans }) => ({
      finding,
      label: observationLabel(knowledge, finding),
      value: valueLabel(knowledge, finding, context.findings[finding] ?? ''),
      decibans,
    })),
    remainderDecibans: reasons.tried[index] ?? 0,
    posterior:
      posterior.kind === 'ok' ? Math.min(1, posterior.causes[index] ?? 0) : (problem.priors[index] ?? 0),
    method: reasons.method,
    mechanisms: cause.drives.flatMap((link) => {
      const mechanism = knowledge.mechanisms.get(link.to);
      const probability = mechanisms?.[knowledge.mechanismIndex.get(link.to) ?? -1] ?? 0;
      if (!mechanism || probability < LEAST_MECHANISM) return [];
      return [
        {
          id: mechanism.id,
          label: mechanism.label,
          physics: mechanism.physics,
          probability: Math.min(1, probability),
        },
      ];
    }),
    practices: cause.practices.flatMap((id) => {
      const practice = knowledge.practices.get(id);
      return practice ? [{ id, label: practice.label, habit: practice.habit, better: practice.better }] : [];
    }),
    remedies: [...knowledge.remedies.values()].flatMap((remedy) => {
      const removal = remedy.removes.find((one) => one.cause === causeId);
      return removal
        ? [{ id: remedy.id, label: remedy.label, chance: strengthProbability(removal.chance) }]
        : [];
    }),
  };
}

/** What each answer to a check would do to the ranking, and what that is worth. Requires a known observation. */
export function whyCheck(
  knowledge: Knowledge,
  context: CaseContext,
  observationId: string,
  costs: ShopCosts | null = null,
): WhyCheck {
  const index = knowledge.observationIndex.get(observationId);
  const observation = knowledge.observations.get(observationId);
  if (!observation || index === undefined) throw new Error(`no observation "${observationId}"`);
  // Asked again, the earlier answer is set aside.
  const findings = Object.fromEntries(
    Object.entries(context.findings).filter(([id]) => id !== observationId),
  );
  const problem = caseProblem(knowledge, { ...context, findings, notTellable: [], skipped: [] }, costs);
  const options = { history: problem.history };
  const now = infer(problem.model, problem.priors, problem.evidence, options);
  const before = now.kind === 'ok' ? now.causes : problem.priors;
  const predicted = predict(problem.model, problem.priors, problem.evidence, options);
  const levels = predicted.kind === 'ok' ? predicted.levels[index] : null;
  const expected = costsOf(problem, observationId);
  return {
    observation: observationId,
    label: observation.label,
    minutes: observation.check.minutes,
    expectedCostNow: expected.now,
    expectedCostAfter: expected.after,
    answers: knowledge.levelsOf(observationId).map((value, level) => {
      const after = infer(
        problem.model,
        problem.priors,
        [...problem.evidence, { observation: index, kind: 'level', level }],
        {
          history: {
            ...problem.history,
            seenAfterTries: new Map([
              ...(problem.history.seenAfterTries ?? []),
              [index, problem.history.tries.length],
            ]),
          },
        },
      );
      const causes = after.kind === 'ok' ? after.causes : before;
      return {
        value,
        label: valueLabel(knowledge, observationId, value),
        probability: Math.min(1, levels?.[level] ?? 0),
        candidates: [...knowledge.causes.keys()]
          .map((cause, i) => ({
            cause,
            label: causeLabel(knowledge, cause),
            probability: Math.min(1, causes[i] ?? 0),
            change: (causes[i] ?? 0) - (before[i] ?? 0),
          }))
          .sort((a, b) => Math.abs(b.change) - Math.abs(a.change))
          .slice(0, SHOWN_CHANGES),
      };
    }),
  };
}

/** Expected minutes to a cure acting now, and with this check first; equal where the check was not worth a full look. */
function costsOf(problem: CaseProblem, observationId: string): { now: number; after: number } {
  if (problem.complaint.length === 0) return { now: 0, after: 0 };
  const plan = planOf(problem);
  if (plan.kind !== 'ok') return { now: 0, after: 0 };
  const now = plan.next.act.expectedMinutes;
  const ofThis = (next: NextStep, checks: CaseProblem['checks']) =>
    next.checks.find(({ check }) => checks[check]?.id === observationId)?.expectedMinutes;
  const known = ofThis(plan.next, problem.checks);
  if (known !== undefined) return { now, after: known };
  // Not among the checks that got a full look: looked at by itself.
  const only = problem.checks.filter((check) => check.id === observationId);
  const alone = planOf({ ...problem, checks: only });
  return { now, after: (alone.kind === 'ok' ? ofThis(alone.next, only) : undefined) ?? now };
}
