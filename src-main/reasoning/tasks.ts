import { reportOnTemperatures, TemperatureLogError } from '../../src-core/flow/index.ts';
import type { TemperatureReport } from '../../src-core/contract/job-report.ts';
import type { Message } from '../../src-core/words/message.ts';
import type { ShopCosts } from '../../src-core/contract/shop-costs.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { advance, rankingsOf, rebuild } from '../../src-core/session/advance.ts';
import type { AroundCase, CaseStep } from '../../src-core/session/case-step.ts';
import type { Foreseen } from '../../src-core/session/foreseen.ts';
import type { CaseConclusion } from '../../src-core/session/case-conclusion.ts';
import type { KnowledgeFile } from '../../src-core/knowledge/schema.ts';
import type { LoggedEvent } from '../../src-core/session/logged-event.ts';
import { underEarlierGuide } from '../../src-core/session/then-and-now.ts';
import { rankCauses } from '../../src-core/session/reason-about.ts';
import { secondThoughts } from '../../src-core/session/second-thoughts.ts';
import type { CaseContext } from '../../src-core/session/case-machine.ts';
import { whyCandidate, whyCheck } from '../../src-core/session/why.ts';
import { computeSpool, type SpoolParts } from '../../src-core/moisture/index.ts';
import type { TrainingRun } from '../../src-core/contract/training-view.ts';
import { demoCases, type DemoIds } from '../../src-core/training/demo-cases.ts';
import type { DemoShop } from '../../src-core/training/demo-shop.ts';
import type { WrittenCase } from '../../src-core/training/written-case.ts';
import { buildTrainingView, practiceContext } from '../../src-core/training/training-view.ts';

/** What a task works with beside its arguments. */
export interface TaskSetting {
  readonly knowledge: Knowledge;
  /** Told the share done by the tasks that take long. */
  readonly onProgress: (share: number) => void;
  /** What was thought ahead; null where that is not done. */
  readonly foreseen: Foreseen | null;
}

/**
 * What takes long enough to keep a host from answering somebody else. Arguments and results are plain data, so that a
 * task runs in this thread or in another alike. Compiled once beside each worker; the guide is read there too.
 */
export const TASKS = {
  advance: (
    { knowledge, foreseen }: TaskSetting,
    before: CaseStep | null,
    logged: LoggedEvent,
    around: AroundCase,
  ) => advance(knowledge, before, logged, around, foreseen),
  rebuild: ({ knowledge }: TaskSetting, log: readonly LoggedEvent[], around: AroundCase) =>
    rebuild(knowledge, log, around),
  rankings: ({ knowledge }: TaskSetting, log: readonly LoggedEvent[]) => rankingsOf(knowledge, log),
  rank: ({ knowledge }: TaskSetting, context: CaseContext) => rankCauses(knowledge, context),
  'under-earlier-guide': (
    { knowledge }: TaskSetting,
    earlier: { readonly version: string; readonly files: readonly KnowledgeFile[] },
    log: readonly LoggedEvent[],
    around: AroundCase,
    kept: CaseConclusion | null,
    step: CaseStep,
  ) => underEarlierGuide(knowledge, earlier, log, around, kept, step),
  'why-candidate': ({ knowledge }: TaskSetting, context: CaseContext, cause: string) =>
    whyCandidate(knowledge, context, cause),
  'why-check': (
    { knowledge }: TaskSetting,
    context: CaseContext,
    observation: string,
    costs: ShopCosts | null,
  ) => whyCheck(knowledge, context, observation, costs),
  'second-thoughts': ({ knowledge }: TaskSetting, context: CaseContext) => secondThoughts(knowledge, context),
  spool: ({ knowledge }: TaskSetting, parts: Omit<SpoolParts, 'knowledge'>) =>
    computeSpool({ ...parts, knowledge }),
  'temperature-log': ({ knowledge }: TaskSetting, text: string) => temperaturesIn(knowledge, text),
  'training-view': ({ knowledge }: TaskSetting, run: TrainingRun, own: WrittenCase | null) =>
    buildTrainingView(knowledge, run, own),
  'practice-context': ({ knowledge }: TaskSetting, run: TrainingRun, own: WrittenCase | null) =>
    practiceContext(knowledge, run, own),
  'demo-cases': ({ knowledge, onProgress }: TaskSetting, shop: DemoShop, ids: DemoIds, endMs: number) =>
    demoCases(knowledge, shop, ids, endMs, onProgress),
};

/** From another thread an error comes as its words alone: what is wrong with the log is an answer. */
function temperaturesIn(
  knowledge: Knowledge,
  text: string,
): { readonly report: TemperatureReport } | { readonly fault: Message } {
  try {
    return { report: reportOnTemperatures(knowledge, text) };
  } catch (error) {
    if (error instanceof TemperatureLogError) return { fault: error.said };
    throw error;
  }
}

export type Tasks = typeof TASKS;
export type TaskName = keyof Tasks;
export type TaskArguments<N extends TaskName> =
  Parameters<Tasks[N]> extends [TaskSetting, ...infer Rest] ? Rest : never;
export type TaskResult<N extends TaskName> = ReturnType<Tasks[N]>;

/** Runs one task by name. The casts meet in one place: name and arguments come paired from {@link TaskArguments}. */
export function runTask<N extends TaskName>(
  setting: TaskSetting,
  name: N,
  args: TaskArguments<N>,
): TaskResult<N> {
  const task = TASKS[name] as unknown as (setting: TaskSetting, ...rest: TaskArguments<N>) => TaskResult<N>;
  return task(setting, ...args);
}
