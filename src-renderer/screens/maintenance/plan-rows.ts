import type { MaintenancePlan, MaintenanceRule } from '../../../src-core/contract/maintenance-view.ts';
import type { Interval, MaintenanceTask } from '../../../src-core/knowledge/maintenance-schema.ts';

/** A task as the plan has it for one model. */
export interface PlanRow {
  readonly task: string;
  readonly label: string;
  /** Null: not done on these. */
  readonly every: Interval | null;
  readonly isOwn: boolean;
  /** Who says so: the shop for this model, the shop for all, or the guide. */
  readonly from: 'model' | 'all' | 'guide';
}

/** The plan for a model of printer (empty: for all), the guide's tasks first, then the shop's own. */
export function planRows(
  tasks: readonly Pick<MaintenanceTask, 'id' | 'label' | 'every'>[],
  { rules }: MaintenancePlan,
  model: string,
): readonly PlanRow[] {
  const ruleFor = (task: string, of: string) =>
    rules.find((rule) => rule.task === task && rule.model.toLowerCase() === of.toLowerCase());
  const rowOf = (task: string, label: string, usual: Interval | null, isOwn: boolean): PlanRow => {
    const own = model === '' ? undefined : ruleFor(task, model);
    const all = ruleFor(task, '');
    const rule = own ?? all;
    return {
      task,
      label: rule?.label ?? label,
      every: rule ? rule.every : usual,
      isOwn,
      from: own ? 'model' : all ? 'all' : 'guide',
    };
  };
  const guideIds = new Set(tasks.map(({ id }) => id));
  const ownTasks = new Map(
    rules.flatMap(({ task, label }) =>
      label === null || guideIds.has(task) ? [] : [[task, label] as const],
    ),
  );
  return [
    ...tasks.map(({ id, label, every }) => rowOf(id, label, every, false)),
    ...[...ownTasks].map(([task, label]) => rowOf(task, label, null, true)),
  ];
}

/** The plan with a rule put in place of what stood for its task and model. */
export function withRule(plan: MaintenancePlan, rule: MaintenanceRule): MaintenancePlan {
  return { rules: [...withoutRule(plan, rule.task, rule.model).rules, rule] };
}

/** The plan without what the shop says of a task for a model: what is said of all, or the guide's word, counts again. */
export function withoutRule({ rules }: MaintenancePlan, task: string, model: string): MaintenancePlan {
  return {
    rules: rules.filter((rule) => !(rule.task === task && rule.model.toLowerCase() === model.toLowerCase())),
  };
}

/** An id for a task of the shop's own: "Empty the chip tray" as "own-empty-the-chip-tray", numbered where there is one. */
export function ownTaskId(label: string, taken: ReadonlySet<string>): string {
  const words = label
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40)
    .replace(/-+$/, '');
  const id = words === '' ? 'own-task' : `own-${words}`;
  if (!taken.has(id)) return id;
  for (let number = 2; ; number++) if (!taken.has(`${id}-${number}`)) return `${id}-${number}`;
}
