import type { Knowledge } from '../knowledge/knowledge.ts';

type Topics = Pick<Knowledge, 'causes' | 'trainingTopics'>;

/** The topic of a cause: the first that names it, or else its family's; null where the guide has none. */
export function topicOf({ causes, trainingTopics }: Topics, cause: string): string | null {
  const topics = [...trainingTopics.values()];
  const named = topics.find((topic) => topic.causes.includes(cause));
  if (named) return named.id;
  const family = causes.get(cause)?.family;
  return topics.find(({ families }) => family !== undefined && families.includes(family))?.id ?? null;
}

/** Topics of some causes, each once. */
export function topicsOf(topics: Topics, causes: readonly string[]): string[] {
  return [...new Set(causes.flatMap((cause) => topicOf(topics, cause) ?? []))];
}
