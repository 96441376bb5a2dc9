import { CONDITION } from '../contract/relied-on-conditions.ts';
import type { KnowledgeFault } from './fault.ts';
import type { Knowledge } from './knowledge.ts';

const FILE = 'knowledge/ids.txt';

const HEADING = [
  '# Every id that a shipped guide has used, as casebooks may hold it. Written by "beadwright knowledge keep-ids"; lines are',
  '# only ever added. One that is renamed stands under "formerly" of the entry that it is called by now.',
];

/** A line for each id that a casebook may hold: kind and id, of a condition's value "condition/value". */
function linesOf(knowledge: Knowledge): Set<string> {
  const named = (kind: string, ids: Iterable<string>) => [...ids].map((id) => `${kind} ${id}`);
  return new Set([
    ...named('observation', knowledge.observations.keys()),
    ...named('cause', knowledge.causes.keys()),
    ...named('remedy', knowledge.remedies.keys()),
    ...named('practice', knowledge.practices.keys()),
    ...named('condition', knowledge.conditions.keys()),
    ...named('maintenance', knowledge.maintenanceTasks.keys()),
    ...[...knowledge.conditions.values()].flatMap(({ id, values }) =>
      named(
        'value',
        (values ?? []).map((value) => `${id}/${value.id}`),
      ),
    ),
  ]);
}

function aliasLinesOf({ former }: Knowledge): Set<string> {
  const named = (kind: string, aliases: ReadonlyMap<string, string>) =>
    [...aliases.keys()].map((id) => `${kind} ${id}`);
  return new Set([
    ...named('observation', former.observations),
    ...named('cause', former.causes),
    ...named('remedy', former.remedies),
    ...named('practice', former.practices),
    ...named('condition', former.conditions),
    ...named('maintenance', former.maintenanceTasks),
    ...[...former.values].flatMap(([id, values]) =>
      [...values.keys()].map((value) => `value ${id}/${value}`),
    ),
  ]);
}

function idsIn(text: string): { readonly line: number; readonly id: string }[] {
  return text
    .split('\n')
    .map((id, index) => ({ line: index + 1, id: id.trim() }))
    .filter(({ id }) => id !== '' && !id.startsWith('#'));
}

/** The list with this guide's ids added to what it held: none is ever taken out. Sorted, so that additions merge. */
export function withTodaysIds(text: string, knowledge: Knowledge): string {
  const all = new Set([...idsIn(text).map(({ id }) => id), ...linesOf(knowledge)]);
  return [...HEADING, ...[...all].sort(), ''].join('\n');
}

/** Ids of this guide that the list does not hold yet: they have not shipped. */
export function idsNotYetKept(text: string, knowledge: Knowledge): string[] {
  const kept = new Set(idsIn(text).map(({ id }) => id));
  return [...linesOf(knowledge)].filter((id) => !kept.has(id));
}

/** Ids that shipped and are neither in use nor the former id of anything: old cases could not say what they meant. */
export function checkShippedIds(text: string, knowledge: Knowledge): KnowledgeFault[] {
  const today = linesOf(knowledge);
  const aliases = aliasLinesOf(knowledge);
  const isNamed = (id: string) =>
    today.has(id) || aliases.has(id) || isValueOfFormer(id, knowledge, today, aliases);
  return idsIn(text)
    .filter(({ id }) => !isNamed(id))
    .map(({ line, id }) => {
      const [kind = '', name = ''] = id.split(' ');
      return {
        code: 'id-gone',
        file: FILE,
        line,
        message: `the ${kind} "${name}" of an earlier guide is gone, and nothing says what it is called now`,
        remedy: `name it under "formerly" of the ${kind} that stands for it`,
      };
    });
}

/** The value of a condition that was itself renamed. */
function isValueOfFormer(
  id: string,
  { former }: Knowledge,
  today: ReadonlySet<string>,
  aliases: ReadonlySet<string>,
): boolean {
  const [kind, name = ''] = id.split(' ');
  const [condition = '', value = ''] = name.split('/');
  const now = former.conditions.get(condition);
  if (kind !== 'value' || now === undefined) return false;
  return today.has(`value ${now}/${value}`) || aliases.has(`value ${now}/${value}`);
}

/** Conditions that code knows by name and this guide does not have, under that name. */
export function checkReliedOn(knowledge: Pick<Knowledge, 'conditions'>): KnowledgeFault[] {
  return Object.values(CONDITION)
    .filter((id) => !knowledge.conditions.has(id))
    .map((id) => ({
      code: 'relied-on-id-gone',
      file: 'knowledge/conditions.yaml',
      line: 1,
      message: `the condition "${id}" is gone, which the program knows by name`,
      remedy: 'keep it, or change src-core/contract/relied-on-conditions.ts with what uses it',
    }));
}
