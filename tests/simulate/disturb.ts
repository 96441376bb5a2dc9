import type { GraphModel } from '../../src-core/inference/index.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { Random } from '../../src-core/training/seeded-random.ts';

/**
 * The guide with every prior, link and leak moved by normal noise on its log-odds (Pradhan et al. 1996): what the
 * planner would believe if the weights had been set by somebody else. The world keeps the shipped weights.
 */
export function disturbedKnowledge(knowledge: Knowledge, logOddsSd: number, random: Random): Knowledge {
  const move = (probability: number) => shift(probability, logOddsSd * normal(random));
  const levels = (distribution: readonly number[]) => {
    const raised = 1 - (distribution[0] ?? 1);
    if (raised <= 0) return distribution;
    const moved = move(raised);
    return distribution.map((value, level) => (level === 0 ? 1 - moved : (value / raised) * moved));
  };
  const graph: GraphModel = {
    causes: knowledge.graph.causes,
    mechanisms: knowledge.graph.mechanisms.map((mechanism) => ({
      ...mechanism,
      leak: move(mechanism.leak),
      links: mechanism.links.map((link) => ({ ...link, probability: move(link.probability) })),
    })),
    observations: knowledge.graph.observations.map((observation) => ({
      ...observation,
      leak: levels(observation.leak),
      links: observation.links.map((link) => ({ ...link, levels: levels(link.levels) })),
    })),
  };
  const offsets = knowledge.graph.causes.map(() => logOddsSd * normal(random));
  return {
    ...knowledge,
    graph,
    priorsUnder: (conditions) => {
      const { priors, shifts } = knowledge.priorsUnder(conditions);
      return { priors: priors.map((prior, cause) => shift(prior, offsets[cause] ?? 0)), shifts };
    },
  };
}

function shift(probability: number, logOdds: number): number {
  if (probability <= 0 || probability >= 1) return probability;
  const odds = (probability / (1 - probability)) * Math.exp(logOdds);
  return odds / (1 + odds);
}

/** Standard normal draw (Box & Muller 1958). */
function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
