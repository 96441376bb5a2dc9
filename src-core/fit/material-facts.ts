import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Material, MaterialProperty } from '../knowledge/schema.ts';
import type { Agent, ServiceData } from '../knowledge/service-schema.ts';
import { gradeInWords, gradeWords, shifted, type Graded } from './grade.ts';
import { fitTexts } from '../words/en/fit.ts';
import { type Message } from '../words/message.ts';

const { m } = fitTexts;

/** The guide's own words, or what is made of them. */
export type FactWords = string | Message;

/** Something known of a material, with the guide's words and where it comes from. */
export interface Fact<T> {
  readonly is: T;
  /** What the guide says about it; empty where the value says all. */
  readonly words: FactWords;
  readonly source: string;
  readonly confidence: 'low' | 'fair' | 'high' | null;
}

export interface Span {
  readonly low: number;
  readonly high: number;
}

/** What a filler may change and the guide keeps for each filler. */
export type MixedQuality = Agent | 'ultraviolet' | 'slidingWear';

/** What the guide knows of a material in service; null is "not known", never "good enough". */
export interface MaterialFacts {
  readonly polymer: string;
  readonly label: string;
  readonly printing: string | null;
  /** Heat deflection at 0.45 MPa, °C. */
  readonly heatLimitC: Fact<Span> | null;
  /** Heat deflection at 1.8 MPa, °C: what a loaded part keeps to. */
  readonly loadedHeatLimitC: Fact<Span> | null;
  /** Air that it bears for years without ageing, °C. */
  readonly continuousUseC: Fact<Span> | null;
  readonly glassTransitionC: Fact<Span> | null;
  readonly creep: Fact<Graded> | null;
  readonly impact: Fact<Graded> | null;
  /** Impact from `downToC` up to the freezing point. */
  readonly impactInCold: (Fact<Graded> & { readonly downToC: number }) | null;
  readonly ultraviolet: Fact<Graded> | null;
  readonly agents: Readonly<Partial<Record<Agent, Fact<Graded>>>>;
  readonly slidingWear: Fact<Graded> | null;
  readonly flexuralModulusGPa: Fact<Span> | null;
  readonly clarity: Fact<Graded> | null;
  readonly smoothing: Fact<Graded> | null;
  /** Why something is not known of the mixture, where there is more to say than that the guide is silent. */
  readonly whyNotKnown: Readonly<Partial<Record<MixedQuality, FactWords>>>;
  /** What is mixed in and why it may not touch skin or food; null without a filler. */
  readonly filler: { readonly label: string; readonly irritates: boolean } | null;
}

export type FactsGuide = Pick<Knowledge, 'materials' | 'service' | 'mixtures'>;

/** Gathers what the guide knows of an unfilled polymer. Throws for a polymer that it does not have. */
export function factsOfPolymer(knowledge: FactsGuide, polymer: string): MaterialFacts {
  const material = knowledge.materials.get(polymer);
  if (material?.kind !== 'polymer') {
    const known = [...knowledge.materials.values()].filter(({ kind }) => kind === 'polymer');
    throw new Error(`the guide has no polymer "${polymer}"; it has ${known.map(({ id }) => id).join(', ')}`);
  }
  const service = knowledge.service.get(polymer);
  const agents = Object.entries(service?.agents ?? {}).map(([agent, data]) => [agent, gradedFact(data)]);
  return {
    polymer,
    label: material.label,
    printing: textOf(material, 'difficulty'),
    heatLimitC: spanFact(material, 'heatDeflectionC'),
    loadedHeatLimitC: spanFact(material, 'heatDeflection18C'),
    continuousUseC: spanFact(material, 'continuousUseC'),
    glassTransitionC: spanFact(material, 'glassTransitionC'),
    creep: wordedFact(material, 'creep'),
    impact: wordedFact(material, 'impact'),
    impactInCold: coldFact(service?.impactInCold),
    ultraviolet: wordedFact(material, 'ultraviolet'),
    agents: Object.fromEntries(agents) as MaterialFacts['agents'],
    slidingWear: gradedFact(service?.slidingWear),
    flexuralModulusGPa: modulusFact(service?.flexuralModulusGPa),
    clarity: gradedFact(service?.clarity),
    smoothing: gradedFact(service?.smoothing),
    whyNotKnown: {},
    filler: null,
  };
}

/** A fact counted some grades better or, below 0, worse, with the reason; at the end of the scale it stays as it is. */
export function countedAs(fact: Fact<Graded>, steps: number, because: Message): Fact<Graded> {
  const is = shifted(fact.is, steps);
  if (is.grade === fact.is.grade) return fact;
  const said = stopless(fact.words) || gradeWords(fact.is.grade);
  return { ...fact, is, words: m.countedAs({ said, because, grade: gradeWords(is.grade) }) };
}

/** Words within a sentence that goes on: without their full stop. What is made of them has none. */
export function stopless(words: FactWords): FactWords {
  return typeof words === 'string' ? words.replace(/\.$/, '') : words;
}

/** The words of a property, or null. */
export function textOf(material: Material, property: MaterialProperty): string | null {
  const value = material.properties[property]?.value;
  return typeof value === 'string' ? value : null;
}

function wordedFact(material: Material, name: 'creep' | 'impact' | 'ultraviolet'): Fact<Graded> | null {
  const property = material.properties[name];
  const words = textOf(material, name);
  const graded = words === null ? null : gradeInWords(words);
  return property && words !== null && graded ? { is: graded, words, ...provenanceOf(property) } : null;
}

function spanFact(
  material: Material,
  name: 'heatDeflectionC' | 'heatDeflection18C' | 'continuousUseC' | 'glassTransitionC',
): Fact<Span> | null {
  const property = material.properties[name];
  const single = typeof property?.value === 'number' ? property.value : undefined;
  const low = property?.low ?? single;
  const high = property?.high ?? single;
  if (!property || low === undefined || high === undefined) return null;
  return { is: { low, high }, words: property.note ?? '', ...provenanceOf(property) };
}

function gradedFact(data: ServiceData['slidingWear']): Fact<Graded> | null {
  if (!data) return null;
  const grade = gradeWords(data.grade);
  const words = data.note ? m.gradeWithNote({ grade, note: lowered(data.note) }) : grade;
  return { is: { grade: data.grade, isConditional: false }, words, ...provenanceOf(data) };
}

function coldFact(data: ServiceData['impactInCold']): MaterialFacts['impactInCold'] {
  const graded = gradedFact(data);
  return data && graded ? { ...graded, downToC: data.downToC } : null;
}

function modulusFact(data: ServiceData['flexuralModulusGPa']): Fact<Span> | null {
  if (!data) return null;
  return { is: { low: data.low, high: data.high }, words: data.note ?? '', ...provenanceOf(data) };
}

/** The guide's note within a sentence. */
export function lowered(note: string): string {
  return `${note.charAt(0).toLowerCase()}${note.slice(1)}`;
}

export function provenanceOf(data: {
  readonly source: string;
  readonly confidence?: 'low' | 'fair' | 'high' | undefined;
}): Pick<Fact<unknown>, 'source' | 'confidence'> {
  return { source: data.source, confidence: data.confidence ?? null };
}
