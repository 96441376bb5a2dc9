import { type Material } from '../knowledge/schema.ts';
import { AGENTS, type Agent } from '../knowledge/service-schema.ts';
import { gradeWords, shifted, type Graded } from './grade.ts';
import {
  factsOfPolymer,
  stopless,
  textOf,
  type Fact,
  type FactsGuide,
  type MaterialFacts,
} from './material-facts.ts';
import { mixedQuality, type Mixed } from './mixed-quality.ts';
import { fitTexts } from '../words/en/fit.ts';

const { m } = fitTexts;

/**
 * What the guide knows of a polymer with a filler ("none" for without). The filler's sheet says what it does in words:
 * "better" and "lower" move a grade one step, other words limit it; light, wear and agents have data of their own for each
 * filler. What neither speaks of is not known of the mixture. Only the heat limits are taken as the polymer's own: fillers
 * hardly lower them and fibres raise it (common practice), and its words say so.
 */
export function factsOfMaterial(knowledge: FactsGuide, polymer: string, filler: string): MaterialFacts {
  const facts = factsOfPolymer(knowledge, polymer);
  if (filler === 'none') return facts;
  const mixedIn = knowledge.materials.get(filler);
  if (mixedIn?.kind !== 'filler') {
    const known = [...knowledge.materials.values()].filter(({ kind }) => kind === 'filler');
    throw new Error(
      `the guide has no filler "${filler}"; it has none, ${known.map(({ id }) => id).join(', ')}`,
    );
  }
  const name = mixedIn.label.toLowerCase();
  const mixture = knowledge.mixtures.get(filler);
  const light = mixedQuality(
    facts.ultraviolet,
    mixture?.ultraviolet,
    name,
    m.notSaidInLight({ filler: name }),
  );
  const sliding = mixedQuality(
    facts.slidingWear,
    mixture?.slidingWear,
    name,
    m.notSaidSliding({ filler: name }),
  );
  const agents = AGENTS.map((agent): readonly [Agent, Mixed] => [
    agent,
    mixedQuality(facts.agents[agent] ?? null, mixture?.agents[agent], name, m.notSaidThere({ filler: name })),
  ]);
  const impactInCold = facts.impactInCold && moved(facts.impactInCold, mixedIn, 'impact');
  return {
    ...facts,
    label: `${facts.label}, ${name}`,
    printing: textOf(mixedIn, 'difficulty') === null ? facts.printing : printingWords(facts, mixedIn),
    heatLimitC: takenAsPlain(facts.heatLimitC, name),
    loadedHeatLimitC: takenAsPlain(facts.loadedHeatLimitC, name),
    creep: moved(facts.creep, mixedIn, 'creep'),
    impact: moved(facts.impact, mixedIn, 'impact'),
    impactInCold: facts.impactInCold &&
      impactInCold && { ...impactInCold, downToC: facts.impactInCold.downToC },
    ultraviolet: light.fact,
    agents: Object.fromEntries(agents.flatMap(([agent, { fact }]) => (fact ? [[agent, fact]] : []))),
    // How much is in it is the maker's secret, so wear never suits outright.
    slidingWear: sliding.fact && { ...sliding.fact, is: { ...sliding.fact.is, isConditional: true } },
    flexuralModulusGPa: stiffened(facts.flexuralModulusGPa, mixedIn),
    clarity: facts.clarity && {
      ...facts.clarity,
      is: { grade: 'poor', isConditional: false },
      words: m.clouds({ filler: name }),
    },
    smoothing: limited(facts.smoothing, name),
    whyNotKnown: whyNotKnown([['ultraviolet', light], ['slidingWear', sliding], ...agents]),
    filler: {
      label: mixedIn.label,
      irritates: /irritat|fibrous/.test(textOf(mixedIn, 'emissions') ?? ''),
    },
  };
}

function takenAsPlain(fact: MaterialFacts['heatLimitC'], filler: string): typeof fact {
  if (!fact) return null;
  return {
    ...fact,
    words: fact.words === '' ? m.takenAsPlain({ filler }) : m.saidTakenAsPlain({ said: fact.words, filler }),
  };
}

function whyNotKnown(
  mixed: readonly (readonly [keyof MaterialFacts['whyNotKnown'], Mixed])[],
): MaterialFacts['whyNotKnown'] {
  return Object.fromEntries(mixed.flatMap(([key, { why }]) => (why === null ? [] : [[key, why]])));
}

function printingWords({ printing }: MaterialFacts, filler: Material): string {
  const own = textOf(filler, 'difficulty') ?? '';
  return printing === null ? own : `${printing}; ${filler.label.toLowerCase()}: ${own}`;
}

function moved(fact: Fact<Graded> | null, filler: Material, name: 'creep' | 'impact'): Fact<Graded> | null {
  const words = textOf(filler, name);
  const property = filler.properties[name];
  if (!fact || words === null || !property) return null;
  const steps = /^better(:|$)/.test(words) ? 1 : words.startsWith('lower') ? -1 : 0;
  const counted = shifted(fact.is, steps);
  // "A little lower", "better than with carbon": not said against the polymer in whole grades, so it never suits outright.
  const is = steps === 0 ? { ...counted, isConditional: true } : counted;
  const told = { said: stopless(fact.words), filler: filler.label.toLowerCase(), words };
  return {
    is,
    words:
      is.grade === fact.is.grade
        ? m.withFiller(told)
        : m.withFillerCounted({ ...told, grade: gradeWords(is.grade) }),
    source: property.source,
    confidence: property.confidence ?? null,
  };
}

function limited(fact: Fact<Graded> | null, filler: string): Fact<Graded> | null {
  return (
    fact && {
      ...fact,
      is: { ...fact.is, isConditional: true },
      words: m.mayShow({ said: stopless(fact.words), filler }),
    }
  );
}

/** Stiffer by an unknown factor: the lower end holds, the upper end is open. */
function stiffened(fact: MaterialFacts['flexuralModulusGPa'], filler: Material): typeof fact {
  if (!fact || !/stiffer/.test(textOf(filler, 'effectOnStrength') ?? '')) return null;
  return {
    ...fact,
    is: { low: fact.is.low, high: Number.POSITIVE_INFINITY },
    words: m.makesStiffer({ filler: filler.label }),
  };
}
