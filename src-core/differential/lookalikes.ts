import type { GuideRival } from '../contract/guide-differential.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { levelsFromCauseAlone } from './levels-from-cause.ts';
import { chancesIn } from './showings.ts';
import { quickestTelling, tellingApart } from './telling-apart.ts';

const MOST_RIVALS = 4;
const CHECKS_EACH = 3;
/** Less in common than this makes no rival. */
const LEAST_LIKENESS = 0.05;
/** Less than this tells nothing apart at the bench: chances of 38 and 62 %, or of 0 and 10 %. */
const LEAST_BITS_AT_BENCH = 0.05;

/**
 * The causes that look most like this one, and the checks that tell them apart as long as nothing else is known. Likeness is the
 * weighted Jaccard index of what they show (Ruzicka 1958): the sum of the smaller chances over the sum of the larger.
 */
export function lookalikesOf(knowledge: Knowledge, causeId: string): readonly GuideRival[] {
  const looks = chancesIn(knowledge);
  const own = looks.get(causeId) ?? new Map<string, number>();
  return [...looks]
    .filter(([id]) => id !== causeId && knowledge.causes.get(id)?.showsAnyComplaint === undefined)
    .map(([cause, other]) => ({ cause, likeness: likenessOf(own, other) }))
    .filter(({ likeness }) => likeness >= LEAST_LIKENESS)
    .sort((a, b) => b.likeness - a.likeness)
    .slice(0, MOST_RIVALS)
    .map(({ cause, likeness }) => ({ cause, likeness, checks: checksBetween(knowledge, causeId, cause) }));
}

function likenessOf(a: ReadonlyMap<string, number>, b: ReadonlyMap<string, number>): number {
  let both = 0;
  let either = 0;
  for (const id of new Set([...a.keys(), ...b.keys()])) {
    both += Math.min(a.get(id) ?? 0, b.get(id) ?? 0);
    either += Math.max(a.get(id) ?? 0, b.get(id) ?? 0);
  }
  return either === 0 ? 0 : both / either;
}

/** Of what either shows, the checks on which they differ. */
function checksBetween(knowledge: Knowledge, here: string, there: string): GuideRival['checks'] {
  const looks = chancesIn(knowledge);
  const indexOf = (id: string) => knowledge.observationIndex.get(id) ?? -1;
  const under = (cause: string) =>
    levelsFromCauseAlone(knowledge.graph, knowledge.causeIndex.get(cause) ?? null);
  const [ifHere, ifThere] = [under(here), under(there)];
  const minutesOf = (id: string) => knowledge.observations.get(id)?.check.minutes ?? 0;
  const shown = new Set([...(looks.get(here)?.keys() ?? []), ...(looks.get(there)?.keys() ?? [])]);
  const open = [...shown].map((observation) => ({
    observation,
    ifFirst: ifHere(indexOf(observation)),
    ifSecond: ifThere(indexOf(observation)),
  }));
  return quickestTelling(tellingApart(open, 0.5, LEAST_BITS_AT_BENCH), minutesOf)
    .slice(0, CHECKS_EACH)
    .map(({ observation }) => ({
      observation,
      minutes: minutesOf(observation),
      here: 1 - (ifHere(indexOf(observation))[0] ?? 1),
      there: 1 - (ifThere(indexOf(observation))[0] ?? 1),
    }));
}
