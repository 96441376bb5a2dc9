import { valueTexts } from '../words/en/values.ts';
import type { CaseEvent, Outcome } from '../contract/case-event.ts';
import type { CaseView, PracticeMark } from '../contract/case-view.ts';
import type { RunAction } from '../contract/training-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { flowOf, rebuild } from '../session/advance.ts';
import type { CaseMoment } from '../session/case-flow.ts';
import type { CaseReasoning } from '../session/case-reasoning.ts';
import type { CaseStep } from '../session/case-step.ts';
import { buildCaseView } from '../session/case-view.ts';
import { levelOfFinding } from '../session/finding-level.ts';
import type { LoggedEvent } from '../session/logged-event.ts';
import { observationLabel } from '../session/wording.ts';
import { inSentence } from '../words/in-sentence.ts';
import { dangerIndexes } from './no-danger.ts';
import type { PracticeRun } from './practice-run.ts';
import type { SetCase } from './set-case.ts';
import { wordsOfLevel } from './shown-level.ts';
import { trainingTexts } from '../words/en/training.ts';
import type { Message, Words } from '../words/message.ts';

/** No record of a casebook has this id: a practice case is none of its cases. */
const PRACTICE_CASE_ID = '0'.repeat(26);
/** When a practice case begins: times in it are minutes since, as they would have passed. */
const BEGINS_MS = Date.UTC(2000, 0, 1);

/** Steps through a case's screens that practice takes; the others belong to a casebook. */
const PRACTISED: ReadonlySet<CaseEvent['kind']> = new Set([
  'danger-answered',
  'made-safe',
  'answered',
  'skipped',
  'jumped',
  'verdict-asked',
  'checking-resumed',
  'remedy-chosen',
  'step-ticked',
  'remedy-left',
  'verified',
  'handed-over',
]);

/** What a run adds up to in the screens of a case. */
export interface PracticeDesk {
  readonly moment: CaseMoment;
  readonly log: readonly LoggedEvent[];
  /** Levels that were looked at and still stand, by observation. */
  readonly looked: ReadonlyMap<string, number>;
  /** Levels of the complaints when the case began and before the last remedy, in their order. */
  readonly before: readonly number[];
  readonly now: readonly number[];
  /** Danger signs that are there. */
  readonly dangers: readonly string[];
  /** Why the last action was not taken; null where it was. */
  readonly refusal: Message | null;
}

/**
 * Plays a run through the flow of a real case. The simulated machine holds every answer to what is there: what is not so is
 * refused with the reason, so that what the screens show is what happened.
 */
export function playScreens(
  knowledge: Knowledge,
  { practice, written }: SetCase,
  actions: readonly RunAction[],
  played: PracticeRun,
): PracticeDesk {
  const flow = flowOf(knowledge);
  const ids = [...knowledge.observations.keys()];
  const left = new Set(practice.causes);
  const levels = () => practice.complaints.map((index) => practice.levelOf(index, left));
  const levelNow = (id: string) => practice.levelOf(knowledge.observationIndex.get(id) ?? -1, left);
  const dangersNow = () =>
    [...dangerIndexes(knowledge)].flatMap((index) =>
      practice.levelOf(index, left) > 0 ? [ids[index] ?? ''] : [],
    );
  const log: LoggedEvent[] = [];
  const looked = new Map<string, number>();
  let moment = flow.initial;
  let minutes = 0;
  let stepsDone = 0;
  let before = levels();
  let cameOut = '';
  let refusal: Message | null = null;

  const take = (event: CaseEvent): Message | null => {
    const result = flow.step(moment, event);
    if (!result.ok) return result.reason;
    moment = result.moment;
    log.push({ seq: log.length + 1, at: new Date(BEGINS_MS + minutes * 60_000).toISOString(), event });
    return null;
  };
  /** Why an event is not true of the simulated machine, or null. */
  const untruth = (event: CaseEvent): Message | null => {
    switch (event.kind) {
      case 'answered': {
        const level =
          moment.state === 'verification' ? levelNow(event.observation) : looked.get(event.observation);
        if (level === undefined) return trainingTexts.m.lookFirst();
        return level === levelOfFinding(knowledge, event.observation, event.value)
          ? null
          : trainingTexts.m.notWhatYouFind();
      }
      case 'danger-answered': {
        const there = dangersNow();
        if (event.present.length === 0) return there.length === 0 ? null : trainingTexts.m.oneSignIsThere();
        return event.present.every((id) => there.includes(id)) ? null : trainingTexts.m.signNotThere();
      }
      case 'verified':
        return trueOutcomes(cameOut).includes(event.outcome) ? null : trainingTexts.m.notHowItCameOut();
      default:
        return PRACTISED.has(event.kind) ? null : trainingTexts.m.belongsToRealCases();
    }
  };

  take({
    kind: 'opened',
    intake: {
      printerId: null,
      spoolId: null,
      openedBy: null,
      conditions: { ...practice.conditions },
      complaints: played.complaints.map((one) => ({ ...one })),
      // What the program says of a case of the shop's own is nothing that an operator said.
      words: typeof written?.story === 'string' ? written.story : '',
    },
  });
  for (const action of actions) {
    refusal = null;
    if (action.kind === 'event') {
      refusal = untruth(action.event) ?? take(action.event);
      continue;
    }
    const step = played.steps[stepsDone++];
    minutes += step?.minutes ?? 0;
    if (action.kind === 'check') {
      looked.set(action.observation, levelNow(action.observation));
      // Whatever is looked at stays the question until it is answered.
      if (moment.context.wanted !== action.observation)
        refusal = take({ kind: 'jumped', observation: action.observation });
    } else if (action.kind === 'remedy') {
      before = levels();
      cameOut = step?.result ?? '';
      for (const cause of practice.causes) if (practice.removes(action.remedy, cause)) left.delete(cause);
      looked.clear();
      refusal = take({ kind: 'remedy-done' });
    }
  }
  return { moment, log, looked, before, now: levels(), dangers: dangersNow(), refusal };
}

/** What can truly be said of a remedy that came out like this. */
function trueOutcomes(result: string): readonly Outcome[] {
  if (result === 'cured') return ['cured'];
  return result === 'better' ? ['better', 'partly'] : ['not-cured'];
}

/** Nothing thought: what a case is shown with where the trainee decides alone. */
const UNTHOUGHT: CaseReasoning = {
  setAside: [],
  mainComplaint: null,
  candidates: [],
  background: [],
  conflict: { bits: 0, suspect: null },
  expectedCostNow: 0,
  next: { kind: 'hand-over', id: '', minutes: 0, expectedCostOfRepair: 0 },
  checks: [],
  remedies: [],
};

/** A practice case as the screens of a real case show it, marked as practice. */
export function practiceCaseView(
  knowledge: Knowledge,
  set: SetCase,
  played: PracticeRun,
  desk: PracticeDesk,
  hasHelp: boolean,
): CaseView {
  const { log, moment } = desk;
  const alone: CaseStep = {
    revision: log.length,
    moment,
    noPlaceFor: [],
    reasoning: UNTHOUGHT,
    ranking: [],
    previous: null,
    workedOut: {},
  };
  const view = buildCaseView({
    caseId: PRACTICE_CASE_ID,
    number: 0,
    printer: null,
    spool: null,
    engineVersion: '',
    knowledge,
    log,
    step: hasHelp ? rebuild(knowledge, log, { costs: null, spool: null }) : alone,
    costs: null,
    now: new Date(BEGINS_MS + played.minutesSpent * 60_000).toISOString(),
  });
  return {
    ...view,
    next: hasHelp ? view.next : null,
    remedy: view.remedy && {
      ...view.remedy,
      repairProbability: hasHelp ? view.remedy.repairProbability : null,
    },
    // Minutes that were spent cannot be had back.
    canUndo: false,
    practice: {
      title: set.written?.title ?? null,
      told: set.written && {
        text: set.written.story,
        printer: set.written.printer,
        spool: set.written.spool,
      },
      minutesSpent: played.minutesSpent,
      hasHelp,
      shown: shownNow(knowledge, set, desk, view),
    },
  };
}

function shownNow(
  knowledge: Knowledge,
  { practice }: SetCase,
  { moment, looked, before, now, dangers }: PracticeDesk,
  { question }: CaseView,
): PracticeMark['shown'] {
  const ids = [...knowledge.observations.keys()];
  const about = (observation: string, isThere: boolean, words: Words) => ({
    observation,
    label: observationLabel(knowledge, observation),
    words,
    isThere,
    quantity: knowledge.observations.get(observation)?.measure?.quantity ?? null,
  });
  switch (moment.state) {
    case 'stop-now':
      return dangers.map((id) => about(id, true, valueTexts.m.itIsThere()));
    case 'checking': {
      const level = question === null ? undefined : looked.get(question.observation);
      return question === null || level === undefined
        ? null
        : [about(question.observation, level > 0, wordsOfLevel(knowledge, question.observation, level))];
    }
    case 'verification':
      return practice.complaints.map((index, place) => {
        const id = ids[index] ?? '';
        const [was, is] = [before[place] ?? 0, now[place] ?? 0];
        return about(id, is > 0, courseWords(knowledge, id, was, is));
      });
    default:
      return null;
  }
}

function courseWords(knowledge: Knowledge, id: string, was: number, is: number): Message {
  if (is === 0) return valueTexts.m.gone();
  const words = wordsOfLevel(knowledge, id, is);
  const value = typeof words === 'string' ? inSentence(words) : (words as Message);
  return is < was ? valueTexts.m.lessThanBefore({ value }) : valueTexts.m.asBefore({ value });
}
