import type { TrainingActionInput } from '../../src-core/contract/training-view.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { CaseContext } from '../../src-core/session/case-machine.ts';
import { rankCauses, remedyMinutes } from '../../src-core/session/reason-about.ts';
import { drawPracticeCase } from '../../src-core/training/practice-case.ts';
import { playPractice } from '../../src-core/training/practice-run.ts';
import { seededRandom } from '../../src-core/training/seeded-random.ts';
import type { Strategy } from './strategies.ts';

const MOST_STEPS = 40;
/** What calling the lead costs, as in planning. */
const CALL_MINUTES = 240;

export interface Played {
  readonly minutes: number;
  readonly checks: number;
  readonly remedies: number;
  readonly isCured: boolean;
  /** At the first remedy: whether the first candidate was a true cause, and every candidate's probability and truth. */
  readonly isFirstVerdictRight: boolean;
  readonly forecasts: readonly { readonly probability: number; readonly isTrue: boolean }[];
}

/** Plays one drawn case by a strategy that believes `believed` while the world follows `knowledge`. */
export function play(
  knowledge: Knowledge,
  believed: Knowledge,
  strategy: Strategy,
  seed: number,
  wrongAnswerShare: number,
): Played {
  const practice = drawPracticeCase(knowledge, seed, null);
  const ids = [...knowledge.causes.keys()];
  const trueCauses = practice.causes.map((index) => ids[index] ?? '');
  const actions: TrainingActionInput[] = [];
  let verdict: Pick<Played, 'isFirstVerdictRight' | 'forecasts'> | null = null;
  const minutesOf = (remedy: string) => remedyMinutes(knowledge, remedy);

  for (let step = 0; step <= MOST_STEPS; step++) {
    const run = playPractice(knowledge, practice, actions, minutesOf);
    const context = withWrongAnswers(knowledge, run.context, seed, wrongAnswerShare);
    const action = run.isCured || step === MOST_STEPS ? null : strategy(believed, context, trueCauses);
    if (!verdict && action?.kind !== 'check') verdict = verdictOn(believed, context, trueCauses);
    if (action) {
      actions.push(action);
      continue;
    }
    return {
      minutes: run.minutesSpent + (run.isCured ? 0 : CALL_MINUTES),
      checks: run.steps.filter((one) => one.action.kind === 'check').length,
      remedies: run.steps.filter((one) => one.action.kind === 'remedy').length,
      isCured: run.isCured,
      ...(verdict ?? { isFirstVerdictRight: false, forecasts: [] }),
    };
  }
  throw new Error('the last step always ends the case');
}

function verdictOn(believed: Knowledge, context: CaseContext, trueCauses: readonly string[]) {
  const ranking = rankCauses(believed, context);
  return {
    isFirstVerdictRight: trueCauses.includes(ranking[0]?.cause ?? ''),
    forecasts: ranking.map(({ cause, probability }) => ({ probability, isTrue: trueCauses.includes(cause) })),
  };
}

/** Answers to checks (not the complaint) that come out wrong, the same ones however often the case is replayed. */
function withWrongAnswers(
  knowledge: Knowledge,
  context: CaseContext,
  seed: number,
  share: number,
): CaseContext {
  if (share === 0) return context;
  const complaints = new Set(context.intake?.complaints.map(({ observation }) => observation));
  const findings = Object.fromEntries(
    Object.entries(context.findings).map(([id, value]) => {
      const random = seededRandom(seed * 1009 + (knowledge.observationIndex.get(id) ?? 0));
      if (complaints.has(id) || random() >= share) return [id, value];
      const others = knowledge.levelsOf(id).filter((level) => level !== value);
      return [id, others[Math.floor(random() * others.length)] ?? value];
    }),
  );
  return { ...context, findings };
}
