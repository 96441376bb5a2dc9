import {
  propagateWhatFits,
  causeProbability,
  complaintModel,
  type CalibratedNetwork,
  modelWithoutComplaint,
  type CaseHistory,
  type FittingNetwork,
  type ComplaintModel,
  type GraphEvidence,
  type GraphModel,
  type Removal,
} from '../inference/index.ts';
import { withOwnLinks, type OwnLink } from '../learning/link-strengths.ts';
import { CAUSE_NOT_IN_GUIDE } from '../knowledge/compile.ts';
import { knownToFail, knownToHold, type Conditions } from '../knowledge/conditions.ts';
import type { MachineStates } from '../knowledge/machine-states-schema.ts';
import type { Knowledge, PriorShift } from '../knowledge/knowledge.ts';
import { circumstanceTexts } from '../words/en/circumstances.ts';
import { timesOdds } from '../numerics/times-odds.ts';
import { strengthProbability } from '../knowledge/scale.ts';
import type { Remedy as GuideRemedy } from '../knowledge/schema.ts';
import type { OpenCheck, Remedy } from '../planning/index.ts';
import type { ShopCosts } from '../contract/shop-costs.ts';
import { remediesDoneWith, type CaseContext, type TriedInCase } from './case-context.ts';
import { accountedFor } from './accounted-for.ts';
import { closedChecks, foundForSure } from './closed-checks.ts';
import { complaintsOf, evidenceOf, withoutGivenWay } from './finding-evidence.ts';
import { chanceInTry, withSaidPart } from './chance-in-try.ts';
import { keepFew } from './keep-few.ts';
import { checkCostMinutes, remedyCostMinutes, waitingShare } from './step-cost.ts';

const HOT_STATES: ReadonlySet<string> = new Set(['hot', 'printing']);
const COLD_STATES: ReadonlySet<string> = new Set(['cold', 'off']);

/**
 * What states cost from the state the machine is in, and which it is in already. Hot and cold exclude each other: after
 * something looked at hot, a cold check waits for the cooling; a machine that prints is hot as well.
 */
function preparationsFrom(
  { preparation, cooling: coolingMinutes }: MachineStates,
  state: string | undefined,
  costs: ShopCosts | null,
): Pick<CaseProblem, 'preparations' | 'prepared'> {
  const isHot = state !== undefined && HOT_STATES.has(state);
  const cooling = isHot ? waitingShare(costs) * coolingMinutes.value : 0;
  const minutes = new Map(Object.entries(preparation).map(([id, { value }]) => [id, value]));
  return {
    preparations: new Map([...minutes, ...[...COLD_STATES].map((one) => [one, cooling] as const)]),
    prepared: new Set([
      ...(state !== undefined && minutes.has(state) ? [state] : []),
      ...(isHot ? ['hot'] : [...COLD_STATES]),
    ]),
  };
}

/** A case in the numbers that inference and planning take. */
export interface CaseProblem {
  /** Hypotheses first "at work on the complaint", by the guide's order of causes, then "in the background". */
  readonly model: GraphModel;
  /** Of the hypotheses. */
  readonly priors: readonly number[];
  /** Hypotheses "something that the guide does not know", one for each complaint. */
  readonly unknowns: readonly number[];
  /** Of the causes, before it is asked whether they are at work on the complaint. */
  readonly causePriors: readonly number[];
  readonly shifts: readonly PriorShift[];
  /** As much of the findings as can be reckoned with exactly; nearly always all. */
  readonly evidence: readonly GraphEvidence[];
  /** Observations whose findings had to be left out. */
  readonly setAside: readonly number[];
  /** Everything complained of that is there. */
  readonly complaints: readonly number[];
  /** What a remedy has to clear first: the main complaint, as a list of one, or none. */
  readonly complaint: readonly number[];
  readonly history: CaseHistory;
  /** The one belief that posterior and plan share; null where not even the main complaint can be reckoned with exactly. */
  readonly belief: CalibratedNetwork | null;
  readonly remedies: readonly Remedy[];
  readonly checks: readonly OpenCheck[];
  /** Checks that are only made where something that was said leads to them, if they are still open. */
  readonly checksLedTo: readonly OpenCheck[];
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
  const { priors: causePriors, shifts } = priorsOf(knowledge, context);
  const complaints = complaintsOf(knowledge, context.intake?.complaints ?? [], context.findings);
  const found = evidenceOf(knowledge, context.findings, context.conditions, complaints);
  const telling = withoutGivenWay(knowledge, found, complaints);
  const graph = graphOf(knowledge, context.intake?.ownLinks ?? []);
  const hypotheses = hypothesesFor(knowledge, graph, complaints);
  const priors = hypotheses.priorsFrom(causePriors);
  const beforeTries =
    complaints.length < 2
      ? null
      : propagateWhatFits(hypotheses.model, priors, telling, {}, { kept: complaints });
  const complaint = mainComplaint(hypotheses.model, complaints, beforeTries?.network ?? null);
  const history = historyOf(knowledge, context, complaint);
  const { belief, evidence, setAside } = beliefIn(
    { model: hypotheses.model, priors, evidence: telling, complaints, complaint, history },
    beforeTries,
  );
  const doneWith = remediesDoneWith(context);
  const thereForSure = foundForSure(knowledge, context, found);
  const closed = closedChecks(knowledge, context, found, complaint, thereForSure);
  const lastLooked = Object.keys(context.findings).at(-1);
  const state = lastLooked === undefined ? undefined : knowledge.observations.get(lastLooked)?.check.machine;
  const { preparations, prepared } = preparationsFrom(knowledge.machineStates, state, costs);
  const open = [...knowledge.observations.values()].filter(({ id }) => !closed.has(id));
  const checkOf = ({ id, check }: (typeof open)[number]): OpenCheck => ({
    id,
    observation: knowledge.observationIndex.get(id) ?? -1,
    minutes: checkCostMinutes(check),
    preparations: preparations.has(check.machine) ? [check.machine] : [],
  });
  return {
    model: hypotheses.model,
    priors,
    unknowns: hypotheses.unknowns,
    causePriors,
    shifts,
    evidence,
    setAside,
    complaints,
    complaint,
    history,
    belief,
    remedies: [...knowledge.remedies.values()]
      .filter(
        (remedy) =>
          !doneWith.has(remedy.id) &&
          fitsConditions(remedy, context.conditions) &&
          !remedy.notWith.some((id) => thereForSure.has(id)),
      )
      .map((remedy) => ({
        id: remedy.id,
        minutes: remedyCostMinutes(remedy, costs),
        removes: removalOf(knowledge, remedy),
        after: remedy.after,
      })),
    checks: open.filter(({ onlyWhenLedTo }) => !onlyWhenLedTo).map(checkOf),
    checksLedTo: open.filter(({ onlyWhenLedTo }) => onlyWhenLedTo).map(checkOf),
    preparations,
    prepared,
  };
}

/** The belief with the tries; the one without them is that already where there were none. */
function beliefIn(
  {
    model,
    priors,
    evidence,
    complaints,
    complaint,
    history,
  }: Pick<CaseProblem, 'model' | 'priors' | 'evidence' | 'complaints' | 'complaint' | 'history'>,
  beforeTries: FittingNetwork | null,
): Pick<CaseProblem, 'belief' | 'evidence' | 'setAside'> {
  const fitting =
    beforeTries && history.tries.length === 0
      ? { ...beforeTries, network: { ...beforeTries.network, history } }
      : propagateWhatFits(model, priors, evidence, { history }, { kept: complaint, reluctantly: complaints });
  if (fitting) return { belief: fitting.network, evidence: fitting.evidence, setAside: fitting.setAside };
  const isComplaint = ({ observation }: GraphEvidence) => complaint.includes(observation);
  return {
    belief: null,
    evidence: evidence.filter(isComplaint),
    setAside: evidence.filter((one) => !isComplaint(one)).map(({ observation }) => observation),
  };
}

/** Priors under the case's circumstances, moved by what the shop's own cases said when it was opened. */
function priorsOf(
  knowledge: Knowledge,
  { conditions, intake }: CaseContext,
): ReturnType<Knowledge['priorsUnder']> {
  const guide = knowledge.priorsUnder(conditions);
  const own = Object.entries(intake?.ownExperience ?? {}).filter(([cause]) =>
    knowledge.causeIndex.has(cause),
  );
  if (own.length === 0) return guide;
  const priors = [...guide.priors];
  for (const [cause, factor] of own) {
    const index = knowledge.causeIndex.get(cause) ?? -1;
    priors[index] = timesOdds(priors[index] ?? 0, factor);
  }
  const shifts = own.map(([cause, factor]) => ({
    cause,
    timesOdds: factor,
    because: circumstanceTexts.m.ownClosedCases(),
    source: circumstanceTexts.m.ownCases(),
  }));
  return { priors, shifts: [...guide.shifts, ...shifts] };
}

/**
 * Our own estimates. A fault is there without being what a case is about a fifth as often as it is what a case is about: most
 * are noticed because they make trouble. And any cause may be behind any complaint: together, for a twentieth of it.
 */
const HYPOTHESES = { backgroundShare: 0.2, leastShare: 0.05 };

/** Networks with a shop's own links: cases opened one after the other mostly have the same. */
const keptGraph = keepFew<GraphModel, GraphModel>(4);

/** The guide's network, with the links that the shop's own cases had when the case was opened. */
function graphOf(knowledge: Knowledge, links: readonly OwnLink[]): GraphModel {
  if (links.length === 0) return knowledge.graph;
  return keptGraph(knowledge.graph, JSON.stringify(links), () => withOwnLinks(knowledge, links));
}

const keptModel = keepFew<GraphModel, ComplaintModel>(12);

/** The model of a complaint, kept for the next answer of the same case. */
function hypothesesFor(
  knowledge: Knowledge,
  graph: GraphModel,
  complaints: readonly number[],
): ComplaintModel {
  return keptModel(graph, complaints.join(), () =>
    complaints.length === 0
      ? modelWithoutComplaint(graph)
      : complaintModel(graph, complaints, knowledge.causeIndex.get(CAUSE_NOT_IN_GUIDE) ?? -1, HYPOTHESES),
  );
}

/**
 * Of several complaints the one that the first candidate shown, which accounts for most of them, most surely raises; of equal ones
 * the first in the guide. What is all but sure of one complaint and nothing to the others is often only that one's consequence: a
 * tool stands out of line because its mount went soft. It does not depend on the order in which they were named. Several troubles
 * are cleared one after the other: asking that all go together would leave no single remedy any chance.
 */
function mainComplaint(
  model: GraphModel,
  complaints: readonly number[],
  belief: CalibratedNetwork | null,
): readonly number[] {
  if (complaints.length < 2) return complaints;
  if (!belief || belief.logEvidence === -Infinity) return complaints.slice(0, 1);
  const present = model.causes.map((_, hypothesis) => causeProbability(belief, hypothesis));
  const ranked = accountedFor(model, complaints, present).subarray(0, model.rankedCauses ?? 0);
  const likeliest = ranked.indexOf(Math.max(...ranked));
  const raisedBy = (index: number) =>
    1 -
    (model.observations[index]?.links.find(({ from }) => from.kind === 'cause' && from.index === likeliest)
      ?.levels[0] ?? 1);
  const [main] = [...complaints].sort((a, b) => raisedBy(b) - raisedBy(a) || a - b);
  return main === undefined ? [] : [main];
}

function fitsConditions({ when, onlyWhenKnown }: GuideRemedy, known: Conditions): boolean {
  if (!when) return true;
  return onlyWhenKnown ? knownToHold(when, known) : !knownToFail(when, known);
}

function removalOf(
  knowledge: Knowledge,
  remedy: GuideRemedy,
  chanceOf: (one: GuideRemedy['removes'][number]) => number = ({ chance }) => strengthProbability(chance),
): Remedy['removes'] {
  return remedy.removes.flatMap((one) => {
    const index = knowledge.causeIndex.get(one.cause);
    return index === undefined ? [] : [{ cause: index, probability: chanceOf(one) }];
  });
}

/** What a tried remedy took away: the cause, whether at work or in the background. */
function triedRemoval(knowledge: Knowledge, remedy: GuideRemedy, tried: TriedInCase): Removal[] {
  const count = knowledge.graph.causes.length;
  return removalOf(knowledge, remedy, (one) => chanceInTry(one, tried)).flatMap(({ cause, probability }) => [
    { cause, probability },
    { cause: count + cause, probability },
  ]);
}

function historyOf(knowledge: Knowledge, context: CaseContext, complaint: readonly number[]): CaseHistory {
  // Without a complaint left there is nothing that a remedy could have been judged by.
  if (complaint.length === 0) return { complaint: [], tries: [] };
  const known = context.tried.filter((one) => knowledge.remedies.has(one.remedy));
  const tries = known.flatMap((one, index) => {
    const entry = knowledge.remedies.get(one.remedy);
    if (!entry) return [];
    // A cure that was followed by another remedy did not last: it counts as better, not as gone for good.
    const lasting = one.outcome === 'cured' && index < known.length - 1 ? 'better' : one.outcome;
    const said = withSaidPart(knowledge, context.findings, one);
    return [{ removal: triedRemoval(knowledge, entry, said), outcome: lasting } as const];
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
