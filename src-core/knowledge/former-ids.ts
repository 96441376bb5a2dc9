import type { KnowledgeFile } from './schema.ts';

/** Ids of earlier guides, by what they are called today; an id in use stands for itself. */
export interface FormerIds {
  readonly observations: ReadonlyMap<string, string>;
  readonly causes: ReadonlyMap<string, string>;
  readonly mechanisms: ReadonlyMap<string, string>;
  readonly remedies: ReadonlyMap<string, string>;
  readonly practices: ReadonlyMap<string, string>;
  readonly conditions: ReadonlyMap<string, string>;
  readonly maintenanceTasks: ReadonlyMap<string, string>;
  /** Values of a condition, by the condition's present id. */
  readonly values: ReadonlyMap<string, ReadonlyMap<string, string>>;
}

interface Named {
  readonly id: string;
  readonly formerly: readonly string[];
}

/** Gathers what the entries say they were called before. */
export function formerIds(files: readonly KnowledgeFile[]): FormerIds {
  const conditions = files.flatMap((file) => file.conditions ?? []);
  return {
    observations: aliases(files.flatMap((file) => file.observations ?? [])),
    causes: aliases(files.flatMap((file) => file.causes ?? [])),
    mechanisms: aliases(files.flatMap((file) => file.mechanisms ?? [])),
    remedies: aliases(files.flatMap((file) => file.remedies ?? [])),
    practices: aliases(files.flatMap((file) => file.practices ?? [])),
    conditions: aliases(conditions),
    maintenanceTasks: aliases(files.flatMap((file) => file.maintenanceTasks ?? [])),
    values: new Map(conditions.map(({ id, values }) => [id, aliases(values ?? [])])),
  };
}

function aliases(entries: readonly Named[]): ReadonlyMap<string, string> {
  return new Map(entries.flatMap(({ id, formerly }) => formerly.map((before) => [before, id] as const)));
}

/** What an id is called today. */
export function today(aliasesOfKind: ReadonlyMap<string, string>, id: string): string {
  return aliasesOfKind.get(id) ?? id;
}
