import type { KeptResult } from '../contract/training-results.ts';
import type { DrillKind } from '../contract/drill-kinds.ts';
import type { Attempt } from './repetition.ts';
import type { Evidence } from './skill.ts';

/** Topic of cautions: every case in which something could hurt somebody says something of it. */
const SAFETY = 'safety';

/** What a result says of the trainee's skill, topic by topic. */
export function evidenceIn({ result }: KeptResult): Evidence[] {
  if (result.kind === 'drill') return [{ topic: result.topic, kind: 'middling', isRight: result.isRight }];
  if (result.kind !== 'case' && result.kind !== 'vote') return [];
  if (isHelped(result)) return [];
  const { topics, isCauseRight: isRight, difficulty } = result;
  const kind = result.kind === 'vote' ? 'vote' : difficulty;
  const found = topics.map((topic): Evidence => ({ topic, kind, isRight }));
  if (result.kind === 'vote' || result.cautionsNeeded === 0) return found;
  return [...found, { topic: SAFETY, kind: 'easy', isRight: result.cautionsRead === result.cautionsNeeded }];
}

/** The id under which a kind of drill comes back, beside those of causes. */
export const drillItem = (kind: DrillKind) => `drill:${kind}`;

/** What has to come back: the causes of cases, and drills by their kind. */
export function attemptsIn({ at, result }: KeptResult): Attempt[] {
  const atMs = Date.parse(at);
  if (result.kind === 'drill') return [{ item: drillItem(result.drill), atMs, isRight: result.isRight }];
  if (result.kind !== 'case' || (isHelped(result) && result.isCauseRight)) return [];
  return result.trueCauses.map((item) => ({ item, atMs, isRight: result.isCauseRight }));
}

/** A case in which the guide asked and ranked says nothing of what the trainee knows. A group's odds stand on the wall for all. */
export function isHelped(result: KeptResult['result']): boolean {
  return result.kind === 'case' && result.run.withOdds;
}
