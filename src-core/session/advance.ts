import type { Knowledge } from '../knowledge/knowledge.ts';
import { createCaseFlow, type CaseFlow, type CaseMoment } from './case-flow.ts';
import type { CaseContext } from './case-context.ts';
import {
  isSameKnowing,
  isSameToReason,
  keptOf,
  type AroundCase,
  type CaseStep,
  type Ranking,
} from './case-step.ts';
import { isShownCandidate } from './case-view.ts';
import { dryingForCase } from './drying-for-case.ts';
import type { Foreseen, Thought } from './foreseen.ts';
import { likelyEvents } from './likely-events.ts';
import { eventsInForce, type LoggedEvent } from './logged-event.ts';
import { rankCauses, reasonAbout } from './reason-about.ts';
import { faults } from '../words/en/faults.ts';
import type { Message } from '../words/message.ts';

export type Advanced =
  { readonly ok: true; readonly step: CaseStep } | { readonly ok: false; readonly reason: Message };

const flows = new WeakMap<Knowledge, CaseFlow>();

/** The flow of cases under a guide, made once. */
export function flowOf(knowledge: Knowledge): CaseFlow {
  const flow = flows.get(knowledge) ?? createCaseFlow(knowledge);
  flows.set(knowledge, flow);
  return flow;
}

/**
 * The one step that an event makes, run once for each: from what the case added up to (null before it is opened) to what
 * it adds up to now. Pure, and it costs the same for the hundredth event as for the third; where an event tells nothing
 * new about the fault (a note, a ticked step), nothing is reasoned. Not for an undo: {@link rebuild} from the log. What was
 * `foreseen` is not worked out again; it makes no other difference.
 */
export function advance(
  knowledge: Knowledge,
  before: CaseStep | null,
  { seq, event }: LoggedEvent,
  around: AroundCase,
  foreseen: Foreseen | null = null,
): Advanced {
  const flow = flowOf(knowledge);
  if (event.kind === 'undone') return { ok: false, reason: faults.undoOfWholeLog() };
  const result = flow.step(before?.moment ?? flow.initial, event);
  if (!result.ok) return result;
  const { moment } = result;
  const step = {
    revision: seq,
    moment,
    noPlaceFor: before?.noPlaceFor ?? [],
    workedOut: isRemedyOf(before, moment.context)
      ? (before?.workedOut ?? {})
      : dryingForCase(knowledge, moment.context, around.spool),
  };
  if (before && isSameToReason(before.moment.context, moment.context)) {
    return { ok: true, step: { ...step, ...thoughtOf(before), previous: before.previous } };
  }
  const isNew = before !== null && !isSameKnowing(before.moment.context, moment.context);
  return {
    ok: true,
    step: {
      ...step,
      ...(foreseen?.recall(moment.context, around.costs) ?? think(knowledge, moment.context, around.costs)),
      previous: isNew ? before.ranking : (before?.previous ?? null),
    },
  };
}

/**
 * What is likely told of a case next, each as a piece of work that may be done before anybody tells it, as long as one answer.
 * What it thinks is kept in `foreseen`. When and by whom something is told changes nothing of that.
 */
export function lookAhead(
  knowledge: Knowledge,
  { moment, reasoning }: CaseStep,
  { costs }: Pick<AroundCase, 'costs'>,
  foreseen: Foreseen,
): readonly (() => void)[] {
  return likelyEvents(knowledge, moment, reasoning).map((event) => () => {
    const result = flowOf(knowledge).step(moment, event);
    if (!result.ok) return;
    const { context } = result.moment;
    if (isSameToReason(moment.context, context) || foreseen.has(context, costs)) return;
    foreseen.keep(context, costs, think(knowledge, context, costs));
  });
}

/** The same as {@link advance} from the whole log, under today's guide: after an undo, and where what is kept was made under another. */
export function rebuild(knowledge: Knowledge, log: readonly LoggedEvent[], around: AroundCase): CaseStep {
  const { moment, noPlaceFor } = flowOf(knowledge).replay(log);
  return {
    revision: log.length,
    moment,
    noPlaceFor,
    workedOut: dryingForCase(knowledge, moment.context, around.spool),
    ...think(knowledge, moment.context, around.costs),
    previous: previousRanking(knowledge, log, moment),
  };
}

/** The ranking after each entry of a log, by its number. Undone entries show what was thought when they were made. */
export function rankingsOf(
  knowledge: Knowledge,
  log: readonly LoggedEvent[],
): { readonly seq: number; readonly ranking: Ranking }[] {
  let context: CaseContext | null = null;
  let ranking: Ranking = [];
  return momentsOf(knowledge, log).map((moment, index) => {
    if (!context || !isSameToReason(context, moment.context)) ranking = rank(knowledge, moment.context);
    context = moment.context;
    return { seq: log[index]?.seq ?? index + 1, ranking };
  });
}

/** The case after each entry. One pass; only an undo looks back at the whole log before it. */
function momentsOf(knowledge: Knowledge, log: readonly LoggedEvent[]): CaseMoment[] {
  const flow = flowOf(knowledge);
  let moment = flow.initial;
  return log.map((logged, index) => {
    moment =
      logged.event.kind === 'undone'
        ? flow.replay(log.slice(0, index + 1)).moment
        : flow.replay([logged], moment).moment;
    return moment;
  });
}

function previousRanking(
  knowledge: Knowledge,
  log: readonly LoggedEvent[],
  { context }: CaseMoment,
): Ranking | null {
  const before = momentsOf(knowledge, eventsInForce(log)).findLast(
    (one) => !isSameKnowing(one.context, context),
  );
  return before ? rank(knowledge, before.context) : null;
}

function think(knowledge: Knowledge, context: CaseContext, costs: AroundCase['costs']): Thought {
  return keptOf(reasonAbout(knowledge, context, undefined, costs), isShownCandidate);
}

function thoughtOf({ reasoning, ranking }: CaseStep): Thought {
  return { reasoning, ranking };
}

function rank(knowledge: Knowledge, context: CaseContext): Ranking {
  return rankCauses(knowledge, context).map(({ cause, probability }) => [cause, probability] as const);
}

function isRemedyOf(before: CaseStep | null, { remedy }: CaseContext): boolean {
  return before !== null && remedy !== null && before.moment.context.remedy?.id === remedy.id;
}
