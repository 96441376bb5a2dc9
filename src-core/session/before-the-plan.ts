import { goesWithAnything, type CasePlan } from '../planning/index.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { shownBeside } from '../knowledge/shown-chance.ts';
import type { CaseContext } from './case-context.ts';
import type { CaseProblem } from './case-problem.ts';
import type { CaseReasoning } from './case-reasoning.ts';
import { speaksFor } from './finding-evidence.ts';
import { foundFault } from './found-fault.ts';

export type Steps = Pick<CaseReasoning, 'expectedCostNow' | 'next' | 'checks' | 'remedies'>;

/** Remedies with less chance than this come after all others. */
export const LEAST_HOPE = 0.05;
/**
 * What a finding leads to, or a comparison has shown, goes before the plan's own step only where its chance to cure is at least this
 * share of the best remedy's: one that has been overtaken by what else was said would be a waste of the job. What was shown to
 * cure and is done in minutes is done all the same. Our own.
 */
const LEAST_SHARE_OF_BEST = 0.5;
const DONE_IN_MINUTES = 10;
/** What takes a found fault away with less chance (0-1) than this is no mending of it. Our own. */
const LEAST_MENDING = 0.5;
/** A check that takes longer than this is not turned to only because a change was said: the plan weighs it. Our own. */
const LED_TO_MINUTES = 15;
/** From this probability on one cause stands out, and its own sign or remedy comes before looking at what was changed. Our own. */
const STANDS_OUT = 0.5;

/** A case with its plan and its candidates, most probable first. */
export interface Planned {
  readonly knowledge: Knowledge;
  readonly context: CaseContext;
  readonly problem: CaseProblem;
  readonly plan: CasePlan;
  readonly ranked: readonly { readonly cause: string; readonly probability: number }[];
}

/**
 * The plan's own steps, unless what was said puts another one first: the cure that a comparison has shown, the remedy of a fault
 * that was found, or while no cause stands out the change that was said.
 */
export function beforeThePlan(planned: Planned, steps: Steps): Steps {
  const { knowledge, context, problem, plan, ranked } = planned;
  const shown = shownCure(knowledge, context, steps.remedies);
  if (shown) return steps.next.id === shown.remedy ? steps : remedyFirst(steps, shown);
  const mended = mendedFirst(knowledge, problem, steps, foundFault(knowledge, problem, ranked));
  if (mended) return mended;
  const isLed = plan.kind === 'ok' && (plan.scenarios[0]?.probability ?? 0) >= STANDS_OUT;
  return isLed ? steps : (followed(planned, steps) ?? steps);
}

/** The remedy that a comparison made already has shown to cure, likeliest first: then it is next. */
function shownCure(
  knowledge: Knowledge,
  context: CaseContext,
  offers: Steps['remedies'],
): Steps['remedies'][number] | null {
  const cures = Object.entries(context.findings).flatMap(([id, value]) =>
    value === 'present' || value === 'probably' ? (knowledge.observations.get(id)?.shownCure ?? []) : [],
  );
  const [best] = offers
    .filter(
      (one) =>
        cures.includes(one.remedy) &&
        (isPromising(one, offers) || (one.minutes <= DONE_IN_MINUTES && one.repairProbability >= LEAST_HOPE)),
    )
    .sort((a, b) => b.repairProbability - a.repairProbability);
  return best ?? null;
}

/** What was found broken is mended before anything is asked that tells nothing of it; a look that does may come first. */
function mendedFirst(
  knowledge: Knowledge,
  problem: CaseProblem,
  steps: Steps,
  found: string | null,
): Steps | null {
  if (found === null || steps.next.kind !== 'check') return null;
  const check = knowledge.observationIndex.get(steps.next.id) ?? -1;
  const asked = knowledge.graph.observations[check];
  if (!asked || (!goesWithAnything(asked) && tellsOf(knowledge, check, found))) return null;
  const removing = new Set(
    problem.remedies
      .filter(({ removes }) =>
        removes.some(
          ({ cause, probability }) =>
            problem.model.causes[cause]?.id === found && probability >= LEAST_MENDING,
        ),
      )
      .map(({ id }) => id),
  );
  const able = steps.remedies.filter(({ remedy }) => removing.has(remedy));
  const [best] = able
    .filter((one) => isPromising(one, able))
    .sort((a, b) => b.repairProbability / b.minutes - a.repairProbability / a.minutes);
  return best ? remedyFirst(steps, best) : null;
}

/** From this chance (0-1) on with which a fault shows a check, the check tells of it. Our own. */
const LEAST_SHOWN = 0.2;

/** Whether a check tells of a fault: the fault shows it often enough, by itself or through a mechanism. */
function tellsOf({ causeIndex, graph }: Knowledge, check: number, cause: string): boolean {
  return shownBeside(graph, check, causeIndex.get(cause) ?? -1) >= LEAST_SHOWN;
}

/**
 * What has been said of a change is looked at first: the first open check, or promising remedy, that it leads to. A check that takes
 * long only stands with the others. A change that is only supposed is one lead among others.
 */
function followed({ knowledge, context, problem }: Planned, steps: Steps): Steps | null {
  const ways = problem.evidence.flatMap((finding) => {
    const id = problem.model.observations[finding.observation]?.id ?? '';
    return speaksFor(finding) && context.findings[id] !== 'probably'
      ? (knowledge.observations.get(id)?.leadsTo ?? [])
      : [];
  });
  let offered: Steps | null = null;
  for (const way of ways) {
    const check = [...problem.checks, ...problem.checksLedTo].find(({ id }) => id === way);
    const remedy = steps.remedies.find((one) => one.remedy === way && isPromising(one, steps.remedies));
    if (remedy) return remedyFirst(steps, remedy);
    if (!check) continue;
    const { minutes } = check;
    const others = steps.checks.filter(({ observation }) => observation !== way);
    const known = steps.checks.find(({ observation }) => observation === way);
    const offer = known ?? {
      observation: way,
      minutes,
      netValueOfInformationMinutes: 0,
      expectedCostAfter: steps.expectedCostNow,
    };
    if (minutes <= LED_TO_MINUTES) {
      const next = { kind: 'check', id: way, minutes, expectedCostOfRepair: steps.expectedCostNow } as const;
      return { ...steps, next, checks: [offer, ...others] };
    }
    // Where the plan has it already, it keeps its place.
    if (!known) offered ??= { ...steps, checks: [...steps.checks, offer] };
  }
  return offered;
}

function isPromising({ repairProbability }: Steps['remedies'][number], offers: Steps['remedies']): boolean {
  const best = Math.max(...offers.map((one) => one.repairProbability));
  return repairProbability >= Math.max(LEAST_HOPE, LEAST_SHARE_OF_BEST * best);
}

function remedyFirst(steps: Steps, { remedy, minutes }: Steps['remedies'][number]): Steps {
  return {
    ...steps,
    next: { kind: 'remedy', id: remedy, minutes, expectedCostOfRepair: steps.expectedCostNow },
    remedies: firstToFront(steps.remedies, remedy),
  };
}

export function firstToFront<T extends { readonly remedy: string }>(
  offers: readonly T[],
  first: string,
): T[] {
  return [...offers.filter((one) => one.remedy === first), ...offers.filter((one) => one.remedy !== first)];
}
