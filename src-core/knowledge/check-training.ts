import { DRILL_KINDS } from '../contract/drill-kinds.ts';
import type { KnowledgeFault } from './fault.ts';
import { nearestId } from './nearest-id.ts';
import type { PlacedLists } from './placed-lists.ts';
import { FAMILIES, type Observation } from './schema.ts';

/** What topics, written practice cases and lessons name has to be there, and every family must have a topic. */
export function checkTraining(lists: PlacedLists): KnowledgeFault[] {
  const faults: KnowledgeFault[] = [];
  const setOf = (entries: readonly { readonly entry: { readonly id: string } }[]) =>
    new Set(entries.map(({ entry }) => entry.id));
  const causes = setOf(lists.causes);
  const topics = setOf(lists.trainingTopics);
  const scenarios = setOf(lists.scenarios);
  const sheets = {
    cause: causes,
    practice: setOf(lists.practices),
    remedy: setOf(lists.remedies),
    observation: setOf(lists.observations),
  };
  const drills = new Set<string>(DRILL_KINDS);
  const observations = new Map(lists.observations.map(({ entry }) => [entry.id, entry]));
  const conditions = new Map(lists.conditions.map(({ entry }) => [entry.id, entry]));
  type Where = { file: string; line: number };
  const mustBe = (known: ReadonlySet<string>, id: string, where: Where, what: string) => {
    if (known.has(id)) return;
    const near = nearestId(id, known);
    faults.push({
      code: 'dangling-id',
      ...where,
      message: `${what} names "${id}", which is not there`,
      remedy: near ? `did you mean "${near}"?` : `use one of ${[...known].slice(0, 20).join(', ')}`,
    });
  };

  const placedFamilies = new Set<string>(lists.trainingTopics.flatMap(({ entry }) => entry.families));
  for (const { entry, at } of lists.trainingTopics)
    entry.causes.forEach((id, i) => mustBe(causes, id, at('causes', i), `topic "${entry.id}"`));
  const [firstTopic] = lists.trainingTopics;
  for (const family of firstTopic ? FAMILIES : [])
    if (family !== 'unknown' && !placedFamilies.has(family) && firstTopic)
      faults.push({
        code: 'family-without-topic',
        ...firstTopic.at('id'),
        message: `no training topic takes in the family "${family}"`,
        remedy: 'name it under "families" of a topic',
      });

  for (const { entry, at } of lists.scenarios) {
    const what = `scenario "${entry.id}"`;
    mustBe(topics, entry.topic, at('topic'), what);
    entry.causes.forEach((id, i) => mustBe(causes, id, at('causes', i), what));
    for (const [id, value] of Object.entries(entry.conditions)) {
      const condition = conditions.get(id);
      mustBe(new Set(conditions.keys()), id, at('conditions', id), what);
      if (condition?.values && typeof value === 'string')
        mustBe(new Set(condition.values.map((one) => one.id)), value, at('conditions', id), what);
    }
    const mustFit = (id: string, value: string, where: Where) => {
      mustBe(sheets.observation, id, where, what);
      const observation = observations.get(id);
      if (observation) mustBe(levelsOf(observation), value, where, `${what}, at "${id}",`);
    };
    entry.complaints.forEach(({ observation, value, from }, i) => {
      mustFit(observation, value, at('complaints', i, 'value'));
      if (from !== undefined) mustBe(new Set(entry.causes), from, at('complaints', i, 'from'), what);
    });
    for (const [id, value] of Object.entries(entry.answers)) mustFit(id, value, at('answers', id));
  }
  for (const { entry, at } of lists.lessons) {
    const what = `lesson "${entry.id}"`;
    entry.read.forEach(({ kind, id }, i) => mustBe(sheets[kind], id, at('read', i, 'id'), what));
    entry.scenarios.forEach((id, i) => mustBe(scenarios, id, at('scenarios', i), what));
    entry.drills.forEach((id, i) => mustBe(drills, id, at('drills', i), what));
  }
  return faults;
}

function levelsOf({ grades, measure }: Observation): ReadonlySet<string> {
  return new Set((grades ?? measure?.bands)?.map(({ id }) => id) ?? ['absent', 'present']);
}
