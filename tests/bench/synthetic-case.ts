import type { GraphEvidence, GraphLink, GraphModel } from '../../src-core/inference/network/graph-model.ts';
import type { OpenCheck, Remedy } from '../../src-core/planning/index.ts';
import { generator } from '../inference/random-model.ts';

export interface SyntheticCase {
  readonly model: GraphModel;
  readonly priors: readonly number[];
  readonly evidence: readonly GraphEvidence[];
  readonly complaint: readonly number[];
  readonly remedies: readonly Remedy[];
  readonly checks: readonly OpenCheck[];
}

const CAUSES = 1000;
const MECHANISMS = 200;
const OBSERVATIONS = 3000;
const MOST_PARENTS = 8;

/**
 * A network seven times the guide's size, of the guide's shape: one to eight parents a gate, priors around one in a
 * hundred, small leaks. Findings are drawn from the network itself, with two causes at work.
 */
export function syntheticCase(seed: number, present: number, absent: number): SyntheticCase {
  const random = generator(seed);
  const below = (count: number) => Math.floor(random() * count);
  const some = (count: number, most: number) => {
    const chosen = new Set<number>();
    for (let k = 1 + below(most); k > 0; k--) chosen.add(below(count));
    return [...chosen];
  };
  const causes = Array.from({ length: CAUSES }, (_, k) => ({ id: `c${k}`, prior: 0.002 + 0.018 * random() }));
  const mechanisms = Array.from({ length: MECHANISMS }, (_, k) => ({
    id: `m${k}`,
    leak: 0.005,
    links: some(CAUSES, MOST_PARENTS).map((cause) => ({ cause, probability: 0.2 + 0.75 * random() })),
  }));
  const observations = Array.from({ length: OBSERVATIONS }, (_, k) => {
    const levels = random() < 0.3 ? 3 : 2;
    const spread = (raised: number) =>
      levels === 2 ? [1 - raised, raised] : [1 - raised, 0.6 * raised, 0.4 * raised];
    const parents = some(CAUSES + MECHANISMS, MOST_PARENTS);
    const links = parents.map((index): GraphLink => ({
      from: index < CAUSES ? { kind: 'cause', index } : { kind: 'mechanism', index: index - CAUSES },
      levels: spread(0.1 + 0.85 * random()),
    }));
    return { id: `o${k}`, leak: spread(0.01 + 0.03 * random()), links };
  });

  const atWork = new Set([below(CAUSES), below(CAUSES)]);
  const isGoing = mechanisms.map(({ links }) =>
    links.some(({ cause, probability }) => atWork.has(cause) && random() < probability),
  );
  const isShown = ({ links }: (typeof observations)[number]) =>
    links.some(({ from, levels }) => {
      const isAlive = from.kind === 'cause' ? atWork.has(from.index) : isGoing[from.index] === true;
      return isAlive && random() > (levels[0] ?? 1);
    });
  const shown = observations.flatMap((one, index) => (isShown(one) ? [index] : []));
  const silent = [...observations.keys()].filter((index) => !shown.includes(index));
  // What the leaks show, where the two causes show too little.
  const found = [...shown, ...silent.slice(-present)].slice(0, present);
  const evidence: GraphEvidence[] = [
    ...found.map((observation) => ({ observation, kind: 'level' as const, level: 1 })),
    ...silent.slice(0, absent).map((observation) => ({ observation, kind: 'level' as const, level: 0 })),
  ];
  const known = new Set(evidence.map(({ observation }) => observation));
  return {
    model: { causes, mechanisms, observations },
    priors: causes.map(({ prior }) => prior),
    evidence,
    complaint: found.slice(0, 1),
    remedies: causes.map((_, cause) => ({
      id: `r${cause}`,
      minutes: 5 + below(40),
      removes: [{ cause, probability: 0.7 + 0.3 * random() }],
    })),
    checks: [...observations.keys()]
      .filter((observation) => !known.has(observation))
      .map((observation) => ({ id: `o${observation}`, observation, minutes: 1 + below(10) })),
  };
}
