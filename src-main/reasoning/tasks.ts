import { reportOnTemperatures } from '../../src-core/flow/index.ts';
import type { ShopCosts } from '../../src-core/contract/shop-costs.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { rankCauses, reasonAbout } from '../../src-core/session/reason-about.ts';
import { secondThoughts } from '../../src-core/session/second-thoughts.ts';
import type { CaseContext } from '../../src-core/session/case-machine.ts';
import { whyCandidate, whyCheck } from '../../src-core/session/why.ts';
import { reckonSpool, type SpoolParts } from '../../src-core/moisture/index.ts';
import { demoCases } from '../../src-core/training/demo-cases.ts';
import { buildTrainingView } from '../../src-core/training/training-view.ts';

/**
 * What takes long enough to keep a host from answering somebody else. Arguments and results are plain data, so that a
 * task runs in this thread or in another alike. Compiled once beside each worker; the guide is read there too.
 */
export const TASKS = {
  reason: (knowledge: Knowledge, context: CaseContext, costs: ShopCosts | null) =>
    reasonAbout(knowledge, context, undefined, costs),
  rank: (knowledge: Knowledge, context: CaseContext) => rankCauses(knowledge, context),
  'why-candidate': whyCandidate,
  'why-check': whyCheck,
  'second-thoughts': secondThoughts,
  spool: (knowledge: Knowledge, parts: Omit<SpoolParts, 'knowledge'>) => reckonSpool({ ...parts, knowledge }),
  'temperature-log': reportOnTemperatures,
  'training-view': buildTrainingView,
  'demo-cases': demoCases,
};

export type Tasks = typeof TASKS;
export type TaskName = keyof Tasks;
export type TaskArguments<N extends TaskName> =
  Parameters<Tasks[N]> extends [Knowledge, ...infer Rest] ? Rest : never;
export type TaskResult<N extends TaskName> = ReturnType<Tasks[N]>;

/** Runs one task by name. The casts meet in one place: name and arguments come paired from {@link TaskArguments}. */
export function runTask<N extends TaskName>(
  knowledge: Knowledge,
  name: N,
  args: TaskArguments<N>,
): TaskResult<N> {
  const task = TASKS[name] as unknown as (knowledge: Knowledge, ...rest: TaskArguments<N>) => TaskResult<N>;
  return task(knowledge, ...args);
}
