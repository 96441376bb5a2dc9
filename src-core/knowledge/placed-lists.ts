import type { ParsedKnowledgeFile } from './parse.ts';
import type { KnowledgeFile } from './schema.ts';

export const LISTS = [
  'conditions',
  'materials',
  'cautions',
  'practices',
  'mechanisms',
  'observations',
  'causes',
  'facetTables',
  'linkTables',
  'remedies',
  'water',
  'service',
  'mixtures',
  'desiccants',
  'barriers',
  'spoolBodies',
  'places',
  'trainingTopics',
  'scenarios',
  'lessons',
  'maintenanceTasks',
  'nozzleWear',
] as const;
export type ListName = (typeof LISTS)[number];
type Entry<N extends ListName> = NonNullable<KnowledgeFile[N]>[number];

/** Every entry with the file and path it stands at. */
export interface Placed<N extends ListName> {
  readonly entry: Entry<N>;
  readonly at: (...path: PropertyKey[]) => { file: string; line: number };
}
export type PlacedLists = { readonly [N in ListName]: readonly Placed<N>[] };

/** Gathers the entries of all files by kind. */
export function placeEntries(files: readonly ParsedKnowledgeFile[]): PlacedLists {
  const collect = <N extends ListName>(name: N): Placed<N>[] =>
    files.flatMap((parsed) =>
      ((parsed.content[name] ?? []) as Entry<N>[]).map((entry, index) => ({
        entry,
        at: (...path: PropertyKey[]) => ({ file: parsed.file, line: parsed.lineOf([name, index, ...path]) }),
      })),
    );
  return {
    conditions: collect('conditions'),
    materials: collect('materials'),
    cautions: collect('cautions'),
    practices: collect('practices'),
    mechanisms: collect('mechanisms'),
    observations: collect('observations'),
    causes: collect('causes'),
    facetTables: collect('facetTables'),
    linkTables: collect('linkTables'),
    remedies: collect('remedies'),
    water: collect('water'),
    service: collect('service'),
    mixtures: collect('mixtures'),
    desiccants: collect('desiccants'),
    barriers: collect('barriers'),
    spoolBodies: collect('spoolBodies'),
    places: collect('places'),
    trainingTopics: collect('trainingTopics'),
    scenarios: collect('scenarios'),
    lessons: collect('lessons'),
    maintenanceTasks: collect('maintenanceTasks'),
    nozzleWear: collect('nozzleWear'),
  };
}
