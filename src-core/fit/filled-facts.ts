import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Material } from '../knowledge/schema.ts';
import { gradeWords, shifted, type Graded } from './grade.ts';
import { countedAs, factsOfPolymer, textOf, type Fact, type MaterialFacts } from './material-facts.ts';

type Guide = Pick<Knowledge, 'materials' | 'service'>;

/**
 * What the guide knows of a polymer with a filler ("none" for without). The filler's sheet says what it does in words:
 * "better" and "lower" move a grade one step; what its sheet does not speak of is not known of the mixture.
 * Heat limit and chemicals are taken as the polymer's own: fibres rather raise the heat limit.
 */
export function factsOfMaterial(knowledge: Guide, polymer: string, filler: string): MaterialFacts {
  const facts = factsOfPolymer(knowledge, polymer);
  if (filler === 'none') return facts;
  const mixedIn = knowledge.materials.get(filler);
  if (mixedIn?.kind !== 'filler') {
    const known = [...knowledge.materials.values()].filter(({ kind }) => kind === 'filler');
    throw new Error(
      `the guide has no filler "${filler}"; it has none, ${known.map(({ id }) => id).join(', ')}`,
    );
  }
  const drinks = /takes up (more|some) water/.test(textOf(mixedIn, 'effectOnMoisture') ?? '');
  const { water } = facts.agents;
  const name = mixedIn.label.toLowerCase();
  return {
    ...facts,
    label: `${facts.label}, ${name}`,
    printing: textOf(mixedIn, 'difficulty') === null ? facts.printing : printingWords(facts, mixedIn),
    creep: moved(facts.creep, mixedIn, 'creep'),
    impact: moved(facts.impact, mixedIn, 'impact'),
    agents:
      drinks && water ? { ...facts.agents, water: countedAs(water, -1, `${name} drinks`) } : facts.agents,
    slidingWear: limited(facts.slidingWear, `${name} may wear what it slides on`),
    flexuralModulusGPa: stiffened(facts.flexuralModulusGPa, mixedIn),
    clarity: facts.clarity && {
      ...facts.clarity,
      is: { grade: 'poor', isConditional: false },
      words: `poor: ${name} clouds it`,
    },
    smoothing: limited(facts.smoothing, `${name} may show at the surface`),
    filler: {
      label: mixedIn.label,
      irritates: /irritat|fibrous/.test(textOf(mixedIn, 'emissions') ?? ''),
    },
  };
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
  const is = shifted(fact.is, steps);
  const counted = is.grade === fact.is.grade ? '' : `, so counted as ${gradeWords(is.grade)}`;
  return {
    is,
    words: `${fact.words}; with ${filler.label.toLowerCase()} ${words}${counted}`,
    source: property.source,
    confidence: property.confidence ?? null,
  };
}

function limited(fact: Fact<Graded> | null, words: string): Fact<Graded> | null {
  return (
    fact && {
      ...fact,
      is: { ...fact.is, isConditional: true },
      words: `${fact.words.replace(/\.$/, '')}; ${words}`,
    }
  );
}

/** Stiffer by an unknown factor: the lower end holds, the upper end is open. */
function stiffened(fact: MaterialFacts['flexuralModulusGPa'], filler: Material): typeof fact {
  if (!fact || !/stiffer/.test(textOf(filler, 'effectOnStrength') ?? '')) return null;
  return {
    ...fact,
    is: { low: fact.is.low, high: Number.POSITIVE_INFINITY },
    words: `${filler.label} makes it stiffer.`,
  };
}
