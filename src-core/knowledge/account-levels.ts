import type { GraphModel } from '../inference/network/graph-model.ts';
import { FACETS, questionOf, type AfterGrade, type Facet, type FacetTable } from './facets-schema.ts';
import { strengthProbability } from './scale.ts';
import type { Cause, Observation } from './schema.ts';

/** How likely an observation that speaks of what accounts for the complaint is with one cause accounting, and why. */
export interface AccountChance {
  readonly probability: number;
  readonly because: 'facet' | 'stated otherwise' | 'mechanism' | 'not stated' | 'leak';
}

const FACET_NAMES = Object.keys(FACETS) as Facet[];

/** Whether an observation speaks of what accounts for the complaint: patterns, comparisons, and what a table says so of. */
export function speaksOfAccount(observation: Observation, table: FacetTable | undefined): boolean {
  return table !== undefined || observation.kind === 'pattern' || observation.kind === 'comparison';
}

/**
 * Chance of the observation with `cause` accounting for the complaint, where the cause has no link of its own with it: such a
 * link would win.
 *
 * The table of facets speaks: the value furthest from neutral among those that the cause states, where values of one facet that
 * speak for and against (it can come either way) make their mean;
 * `otherwise` where it answers the question that the table asks (`questionOf`) without any of them; `notStated` where it
 * does not answer it. What the cause shows through mechanisms can only raise what is not stated. Without a table what
 * nobody linked has the leak.
 */
export function accountChance(
  cause: Cause,
  table: FacetTable | undefined,
  throughMechanisms: number,
  leak: number,
): AccountChance {
  if (!table) {
    return throughMechanisms > leak
      ? { probability: throughMechanisms, because: 'mechanism' }
      : { probability: leak, because: 'leak' };
  }
  const { neutral, otherwise, rows } = numbersOf(table);
  const { values, questions } = statedBy(cause);
  const fitting = rows
    .filter(({ key }) => values.has(key))
    .map(({ key, facet, probability }) => ({
      facet,
      probability: drawnIn(probability, neutral, shareOf(cause, key)),
    }));
  const [furthest] = [...new Set(fitting.map(({ facet }) => facet))]
    .map((facet) => eitherWay(facet, fitting, neutral))
    .sort((a, b) => distance(b, neutral) - distance(a, neutral));
  if (furthest !== undefined) return { probability: furthest, because: 'facet' };
  const isStated = rows.some(({ probability, question }) => probability > neutral && questions.has(question));
  const plain = isStated ? otherwise : neutral;
  if (throughMechanisms > plain) return { probability: throughMechanisms, because: 'mechanism' };
  return { probability: plain, because: isStated ? 'stated otherwise' : 'not stated' };
}

/**
 * What one facet says: the value furthest from neutral. Where a cause lists values that speak for and against, as of one that
 * comes suddenly or over weeks, it is their mean. Not of `sits`: there each value names something that cures by itself.
 */
function eitherWay(
  facet: string,
  fitting: readonly { readonly facet: string; readonly probability: number }[],
  neutral: number,
): number {
  const chances = fitting.filter((one) => one.facet === facet).map(({ probability }) => probability);
  const most = Math.max(...chances);
  const least = Math.min(...chances);
  if (facet !== 'sits' && most > neutral && least < neutral) return (most + least) / 2;
  return distance(most, neutral) >= distance(least, neutral) ? most : least;
}

/** "better" and "worse" are one facet here: what makes it better when raised makes it worse when lowered. */
function facetOf(key: string): string {
  const facet = key.slice(0, key.indexOf('.'));
  return facet === 'worse' ? 'better' : facet;
}

/** A chance with its log-odds against neutral multiplied by a share (0-1). */
function drawnIn(probability: number, neutral: number, share: number): number {
  const odds = Math.exp(logOdds(neutral) + share * (logOdds(probability) - logOdds(neutral)));
  return odds / (1 + odds);
}

/**
 * How much of what the table says holds for a value of a facet: in full for an opposite.
 *
 * After a change it is by how often the cause arises so. Of the other facets a cause lists values with the most typical
 * first and shows the later ones less often: 2 / place beyond the second place. Our own rules.
 */
function shareOf(cause: Cause, key: string): number {
  const dot = key.indexOf('.');
  const facet = key.slice(0, dot) as Facet | 'worse';
  const value = key.slice(dot + 1);
  if (facet === 'after') {
    const grade = Object.entries(cause.facets?.after ?? {}).find(([change]) => change === value)?.[1];
    return grade === undefined ? 1 : AFTER_SHARES[grade];
  }
  const values: readonly string[] = cause.facets?.[facet] ?? [];
  return Math.min(1, VALUES_IN_FULL / (Math.max(0, values.indexOf(value)) + 1));
}

/** With 55 in 100 as the table's full value and 2 as neutral these make about 17 and 5. */
const AFTER_SHARES: Readonly<Record<AfterGrade, number>> = { mostly: 1, often: 0.6, sometimes: 0.25 };
/** How many values of a facet count in full. */
const VALUES_IN_FULL = 2;

/** Chance that a cause raises each observation through its mechanisms alone. */
export function throughMechanisms(graph: GraphModel, observation: number, cause: number): number {
  let silent = 1;
  for (const { from, levels } of graph.observations[observation]?.links ?? []) {
    if (from.kind !== 'mechanism') continue;
    const drive = graph.mechanisms[from.index]?.links.find((link) => link.cause === cause)?.probability ?? 0;
    silent *= 1 - drive * (1 - (levels[0] ?? 1));
  }
  return 1 - silent;
}

/** A table's strengths as numbers, worked out once: every cause is held against it. */
const numbersByTable = new WeakMap<FacetTable, ReturnType<typeof inNumbers>>();

function numbersOf(table: FacetTable) {
  const known = numbersByTable.get(table) ?? inNumbers(table);
  numbersByTable.set(table, known);
  return known;
}

function inNumbers({ notStated, otherwise, given }: FacetTable) {
  return {
    neutral: strengthProbability(notStated),
    otherwise: strengthProbability(otherwise),
    rows: Object.entries(given).map(([key, strength]) => ({
      key,
      facet: facetOf(key),
      question: questionOf(key),
      probability: strengthProbability(strength),
    })),
  };
}

/** What each cause states, worked out once: every table asks it. */
const statedByCause = new WeakMap<Cause, ReturnType<typeof stated>>();

function statedBy(cause: Cause) {
  const known = statedByCause.get(cause) ?? stated(cause);
  statedByCause.set(cause, known);
  return known;
}

/** The values of facets that a cause states, and the questions that it answers by them. */
function stated(cause: Cause) {
  const values = statedValues(cause);
  return { values, questions: new Set([...values].map(questionOf)) };
}

/** Facets as "facet.value"; what makes it better when raised makes it worse when lowered, so opposites are added. */
function statedValues(cause: Cause): ReadonlySet<string> {
  const facets = cause.facets;
  const values = new Set<string>();
  if (!facets) return values;
  for (const facet of FACET_NAMES)
    for (const value of facet === 'after' ? Object.keys(facets.after ?? {}) : (facets[facet] ?? []))
      values.add(`${facet}.${value}`);
  for (const value of facets.worse ?? []) values.add(`worse.${value}`);
  for (const value of facets.better ?? []) addOpposite(values, 'worse', value);
  for (const value of facets.worse ?? []) addOpposite(values, 'better', value);
  return values;
}

const OPPOSITES: readonly (readonly [string, string])[] = [
  ['hotter', 'cooler'],
  ['hotter-bed', 'cooler-bed'],
  ['slower', 'faster'],
  ['less-fan', 'more-fan'],
  ['warmer-room', 'cooler-room'],
  ['more-retraction', 'less-retraction'],
  ['more-flow', 'less-flow'],
  ['lower-nozzle', 'higher-nozzle'],
  ['more-tension', 'less-tension'],
];

function addOpposite(values: Set<string>, facet: string, value: string): void {
  for (const [a, b] of OPPOSITES) {
    if (value === a) values.add(`${facet}.${b}`);
    if (value === b) values.add(`${facet}.${a}`);
  }
}

function distance(probability: number, neutral: number): number {
  return Math.abs(logOdds(probability) - logOdds(neutral));
}

function logOdds(p: number): number {
  return Math.log(p / (1 - p));
}
