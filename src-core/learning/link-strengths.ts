import type { GraphModel, GraphObservation } from '../inference/network/graph-model.ts';
import { throughMechanisms } from '../knowledge/account-levels.ts';
import { CAUSE_NOT_IN_GUIDE } from '../knowledge/compile.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { besideMechanisms, shownBeside } from '../knowledge/shown-chance.ts';
import { betaQuantile, type Beta } from '../statistics/beta-distribution.ts';

/** What was found in a closed case whose one cause was confirmed. */
export interface AnsweredCase {
  /** Of the guide. */
  readonly cause: string;
  /** Checks that were answered for sure: whether the observation was there. What was complained of is none of them. */
  readonly answers: Readonly<Record<string, boolean>>;
}

/** How often a cause shows an observation in this shop, beside the guide. */
export interface LinkExperience {
  readonly cause: string;
  readonly observation: string;
  /** Chance (0–1) that it is there with this cause, by the guide and by both. */
  readonly guide: number;
  readonly own: number;
  readonly seen: number;
  readonly of: number;
}

/**
 * How much the guide weighs against the shop's own answers, as answers: 8 where it says one half, 22 at a tenth, 200 at a
 * hundredth. It is what a beta of mean p has where log-odds differ from shop to shop by a standard deviation of 0.7 (variance of a beta:
 * p (1 - p) / (weight + 1), about (0.7 p (1 - p))²): one answer must not make six times as much of what is rare. Our own choice,
 * held against simulated shops.
 */
export function linkWeight(chance: number): number {
  return 2 / (chance * (1 - chance));
}

/** A link answered less often than this in cases of its cause is left as the guide has it. */
export const FEWEST_LINK_ANSWERS = 5;
/** Odds that change by less than this move nothing that anybody would see. */
const LEAST_CHANGE = 1.15;

/**
 * What a shop's answers say of the guide's links, most changed first, those with enough answers only. The chance that an
 * observation is there with a cause has a beta prior of the guide's mean that weighs as {@link linkWeight} answers; after
 * s of n it is beta again (Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 2.4). Given the cause, whether a check was made
 * is taken to say nothing of its outcome.
 */
export function linkExperience(
  knowledge: Knowledge,
  cases: readonly AnsweredCase[],
): readonly LinkExperience[] {
  const counts = new Map<string, Map<string, { seen: number; of: number }>>();
  for (const { cause, answers } of cases) {
    if (!knowledge.causeIndex.has(cause) || cause === CAUSE_NOT_IN_GUIDE) continue;
    const own = counts.get(cause) ?? new Map<string, { seen: number; of: number }>();
    counts.set(cause, own);
    for (const [observation, isThere] of Object.entries(answers)) {
      const count = own.get(observation) ?? { seen: 0, of: 0 };
      own.set(observation, { seen: count.seen + Number(isThere), of: count.of + 1 });
    }
  }
  return [...counts]
    .flatMap(([cause, own]) =>
      [...own].flatMap(([observation, { seen, of }]): LinkExperience[] => {
        const guide = guideChance(knowledge, cause, observation);
        if (guide === null || of < FEWEST_LINK_ANSWERS) return [];
        const { a, b } = updated({ guide, seen, of });
        return [{ cause, observation, guide, own: a / (a + b), seen, of }];
      }),
    )
    .sort((a, b) => Math.abs(changeOf(b)) - Math.abs(changeOf(a)));
}

/** The 5 and 95 % points of what both say of a link: only whoever is shown it needs them, and they take a while. */
export function linkLimits(link: Pick<LinkExperience, 'guide' | 'seen' | 'of'>): {
  readonly low: number;
  readonly high: number;
} {
  const beta = updated(link);
  return { low: betaQuantile(beta, 0.05), high: betaQuantile(beta, 0.95) };
}

function updated({ guide, seen, of }: Pick<LinkExperience, 'guide' | 'seen' | 'of'>): Beta {
  const weight = linkWeight(guide);
  return { a: weight * guide + seen, b: weight * (1 - guide) + of - seen };
}

/** Chance that an observation is there with a cause alone, leak and all; null where the guide has either no more. */
function guideChance({ graph, causeIndex, observationIndex }: Knowledge, cause: string, observation: string) {
  const [from, to] = [causeIndex.get(cause), observationIndex.get(observation)];
  if (from === undefined || to === undefined) return null;
  const silent = graph.observations[to]?.leak[0] ?? 1;
  // Never quite sure: a beta has no certainties.
  return Math.min(0.999, Math.max(0.001, 1 - silent * (1 - shownBeside(graph, to, from))));
}

/** Change of the log-odds. */
function changeOf({ guide, own }: Pick<LinkExperience, 'guide' | 'own'>): number {
  return Math.log(own / (1 - own)) - Math.log(guide / (1 - guide));
}

/** A link's strength as a case keeps it: the chance that the observation is there with the cause. */
export interface OwnLink {
  readonly cause: string;
  readonly observation: string;
  readonly probability: number;
}

/** Strengths that a case is opened with: those that own answers move noticeably. */
export function ownLinksOf(experience: readonly LinkExperience[]): readonly OwnLink[] {
  return experience
    .filter((one) => Math.abs(changeOf(one)) >= Math.log(LEAST_CHANGE))
    .map(({ cause, observation, own }) => ({ cause, observation, probability: Number(own.toPrecision(3)) }));
}

/** The guide's network with these links in the place of its own. Links to what today's guide lacks are passed over. */
export function withOwnLinks(knowledge: Knowledge, links: readonly OwnLink[]): GraphModel {
  const { graph, causeIndex, observationIndex } = knowledge;
  const observations: GraphObservation[] = [...graph.observations];
  for (const { cause, observation, probability } of links) {
    const [from, to] = [causeIndex.get(cause), observationIndex.get(observation)];
    const node = to === undefined ? undefined : observations[to];
    if (from === undefined || to === undefined || !node) continue;
    const silent = node.leak[0] ?? 1;
    // What the leak explains already is not the cause's doing.
    const shown = silent > 0 ? Math.max(0, 1 - (1 - probability) / silent) : 0;
    observations[to] = withLink({ ...graph, observations }, node, to, from, shown);
  }
  return { ...graph, observations };
}

function withLink(
  graph: GraphModel,
  node: GraphObservation,
  at: number,
  cause: number,
  shown: number,
): GraphObservation {
  if (node.accountLevels)
    return {
      ...node,
      accountLevels: node.accountLevels.map((levels, index) =>
        index === cause ? scaledTo(levels, shown) : levels,
      ),
    };
  const isOwn = ({ from }: GraphObservation['links'][number]) =>
    from.kind === 'cause' && from.index === cause;
  const old = node.links.find(isOwn);
  // Of several levels they share as before; of a link that is new as the leak's do.
  const whole = scaledTo(old?.levels ?? node.leak, shown);
  const levels = besideMechanisms(whole, throughMechanisms(graph, at, cause));
  const own = levels ? [{ from: { kind: 'cause', index: cause }, levels } as const] : [];
  return { ...node, links: [...own, ...node.links.filter((one) => !isOwn(one))] };
}

/** The levels with so much chance in all above the lowest, shared as before (evenly where there was none). */
function scaledTo(levels: readonly number[], shown: number): readonly number[] {
  const before = levels.slice(1).reduce((sum, one) => sum + one, 0);
  return levels.map((one, level) =>
    level === 0 ? 1 - shown : before > 0 ? (one / before) * shown : shown / (levels.length - 1),
  );
}
