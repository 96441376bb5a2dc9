import type { CaseHistory, GraphEvidence, GraphModel } from '../inference/index.ts';
import { knownToFail } from '../knowledge/conditions.ts';
import type { Knowledge, PriorShift } from '../knowledge/knowledge.ts';
import { strengthProbability } from '../knowledge/scale.ts';
import type { Remedy as GuideRemedy } from '../knowledge/schema.ts';
import type { OpenCheck, Remedy } from '../planning/index.ts';
import type { ShopCosts } from '../contract/shop-costs.ts';
import type { CaseContext } from './case-machine.ts';
import { mainComplaint, evidenceOf } from './finding-evidence.ts';
import { checkCostMinutes, remedyCostMinutes, waitingShare } from './step-cost.ts';

/** One-off minutes of bringing the machine into a state; checks in the same state share them. Our own estimates. */
const PREPARATION_MINUTES: ReadonlyMap<string, number> = new Map([
  ['hot', 5],
  ['opened', 8],
  ['printing', 4],
  ['motors-off', 1],
]);
/** A hot end takes this long to be safe to touch; it cools by itself, so it counts as waiting. */
const COOLING_MINUTES = 20;
const HOT_STATES: ReadonlySet<string> = new Set(['hot', 'printing']);
const COLD_STATES: ReadonlySet<string> = new Set(['cold', 'off']);

/**
 * What states cost from the state the machine is in, and which it is in already. Hot and cold exclude each other: after
 * something looked at hot, a cold check waits for the cooling; a machine that prints is hot as well.
 */
function preparationsFrom(
  state: string | undefined,
  costs: ShopCosts | null,
): Pick<CaseProblem, 'preparations' | 'prepared'> {
  const isHot = state !== undefined && HOT_STATES.has(state);
  const cooling = isHot ? waitingShare(costs) * COOLING_MINUTES : 0;
  return {
    preparations: new Map([
      ...PREPARATION_MINUTES,
      ...[...COLD_STATES].map((one) => [one, cooling] as const),
    ]),
    prepared: new Set([
      ...(state !== undefined && PREPARATION_MINUTES.has(state) ? [state] : []),
      ...(isHot ? ['hot'] : [...COLD_STATES]),
    ]),
  };
}

/** A case in the numbers that inference and planning take. */
export interface CaseProblem {
  readonly model: GraphModel;
  readonly priors: readonly number[];
  readonly shifts: readonly PriorShift[];
  readonly evidence: readonly GraphEvidence[];
  readonly complaint: readonly number[];
  readonly history: CaseHistory;
  readonly remedies: readonly Remedy[];
  readonly checks: readonly OpenCheck[];
  /** One-off minutes of each state of the machine, from the one it is in. */
  readonly preparations: ReadonlyMap<string, number>;
  /** Preparations made already, by the last thing looked at. */
  readonly prepared: ReadonlySet<string>;
}

/** Minutes that a remedy counts with in planning: all hands-on time and a share of the waiting. */
export function remedyMinutes(knowledge: Knowledge, remedyId: string): number {
  const remedy = knowledge.remedies.get(remedyId);
  return remedy ? remedyCostMinutes(remedy, null) : 0;
}

/** Translates a case; `costs` where the shop has said what things cost. Findings and tried remedies that this guide does not know are left out. */
export function caseProblem(
  knowledge: Knowledge,
  context: CaseContext,
  costs: ShopCosts | null = null,
): CaseProblem {
  const { priors, shifts } = knowledge.priorsUnder(context.conditions);
  const evidence = evidenceOf(knowledge, context.findings);
  const complaint = mainComplaint(knowledge, context.intake?.complaints ?? [], context.findings);
  const history = historyOf(knowledge, context, complaint);
  const tried = new Set(context.tried.map((one) => one.remedy));
  const closed = new Set([...Object.keys(context.findings), ...context.notTellable, ...context.skipped]);
  const lastLooked = Object.keys(context.findings).at(-1);
  const state = lastLooked === undefined ? undefined : knowledge.observations.get(lastLooked)?.check.machine;
  const { preparations, prepared } = preparationsFrom(state, costs);
  return {
    model: knowledge.graph,
    priors,
    shifts,
    evidence,
    complaint,
    history,
    remedies: [...knowledge.remedies.values()]
      .filter(
        (remedy) => !tried.has(remedy.id) && !(remedy.when && knownToFail(remedy.when, context.conditions)),
      )
      .map((remedy) => ({
        id: remedy.id,
        minutes: remedyCostMinutes(remedy, costs),
        removes: removalOf(knowledge, remedy),
        after: remedy.after,
      })),
    checks: [...knowledge.observations.values()]
      .filter((observation) => !closed.has(observation.id))
      .map((observation) => ({
        id: observation.id,
        observation: knowledge.observationIndex.get(observation.id) ?? -1,
        minutes: checkCostMinutes(observation.check),
        preparations: preparations.has(observation.check.machine) ? [observation.check.machine] : [],
      })),
    preparations,
    prepared,
  };
}

function removalOf(knowledge: Knowledge, remedy: GuideRemedy): Remedy['removes'] {
  return remedy.removes.flatMap(({ cause, chance }) => {
    const index = knowledge.causeIndex.get(cause);
    return index === undefined ? [] : [{ cause: index, probability: strengthProbability(chance) }];
  });
}

function historyOf(knowledge: Knowledge, context: CaseContext, complaint: readonly number[]): CaseHistory {
  // Without a complaint left there is nothing that a remedy could have been judged by.
  if (complaint.length === 0) return { complaint: [], tries: [] };
  const known = context.tried.filter((one) => knowledge.remedies.has(one.remedy));
  const tries = known.flatMap(({ remedy, outcome }, index) => {
    const entry = knowledge.remedies.get(remedy);
    if (!entry) return [];
    // A cure that was followed by another remedy did not last: it counts as better, not as gone for good.
    const lasting = outcome === 'cured' && index < known.length - 1 ? 'better' : outcome;
    return [{ removal: removalOf(knowledge, entry), outcome: lasting } as const];
  });
  // Two moments are told apart: before the first remedy, and now. A finding made between two remedies counts as made
  // before the first: every further moment would multiply the worlds to be summed over, and a remedy that changed
  // nothing seldom changed what else was seen.
  const seenAfterTries = new Map(
    Object.entries(context.seenAfterTries).flatMap(([id, count]): [number, number][] => {
      const observation = knowledge.observationIndex.get(id);
      const isSeenNow = tries.length > 0 && count >= tries.length;
      return observation === undefined || !isSeenNow || complaint.includes(observation)
        ? []
        : [[observation, tries.length]];
    }),
  );
  return { complaint, tries, seenAfterTries };
}
