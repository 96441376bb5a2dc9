import { strengthProbability } from '../../src-core/contract/strength-words.ts';
import type { Guide } from '../../src-core/contract/guide-view.ts';
import type { GuideBook } from '../host/guide-book.ts';
import { showingsOf } from '../screens/guide/showings.ts';
import type { StatementGroup } from './statement-groups.ts';

type Observation = Guide['observations'][number];
type Cause = Guide['causes'][number];
/** How much each cause counts; only their proportions matter. */
export type CauseWeights = ReadonlyMap<string, number>;

/** Chance (0–1) that a cause shows an observation at all, by cause and observation; worked out once for a guide. */
const chances = new WeakMap<GuideBook, ReadonlyMap<string, ReadonlyMap<string, number>>>();

function chancesIn(book: GuideBook): ReadonlyMap<string, ReadonlyMap<string, number>> {
  const kept = chances.get(book);
  if (kept) return kept;
  const made = new Map(
    book.guide.causes.map((cause) => [
      cause.id,
      new Map(showingsOf(cause, book).map((one) => [one.observation, one.chance])),
    ]),
  );
  chances.set(book, made);
  return made;
}

/** Before a case is opened: each cause by its prior and by how often it shows what is complained of. */
export function weightsOfComplaints(book: GuideBook, complaints: readonly string[]): CauseWeights {
  const shown = chancesIn(book);
  return new Map(
    book.guide.causes.map((cause) => {
      const looks = shown.get(cause.id);
      const fits = complaints.reduce((sum, id) => sum + (looks?.get(id) ?? 0), 0);
      return [cause.id, cause.prior.perHundredCases * fits];
    }),
  );
}

/**
 * The statements of each group, those first that are most often true under the weighted causes: by the cause's own link where
 * it has one, otherwise by its facets. An order for the eye; what a statement means for the case is reckoned by the host.
 */
export function statementsByFit(
  book: GuideBook,
  weights: CauseWeights,
): ReadonlyMap<StatementGroup, readonly Observation[]> {
  const shown = chancesIn(book);
  const tables = new Map(book.guide.facetTables.map((table) => [table.id, table]));
  const counted = book.guide.causes.filter((cause) => (weights.get(cause.id) ?? 0) > 0);
  const fitOf = (observation: Observation) =>
    counted.reduce((sum, cause) => {
      const table = tables.get(observation.id);
      const own = shown.get(cause.id)?.get(observation.id);
      const chance = own ?? (table ? chanceByFacets(cause, table) : 0);
      return sum + (weights.get(cause.id) ?? 0) * chance;
    }, 0);
  const grouped = book.guide.observations.flatMap((observation) =>
    observation.group ? [{ group: observation.group, observation, fit: fitOf(observation) }] : [],
  );
  return new Map(
    [...Map.groupBy(grouped, (one) => one.group)].map(([group, members]) => [
      group,
      members.toSorted((a, b) => b.fit - a.fit).map((one) => one.observation),
    ]),
  );
}

/** Of the facet values that the cause states, the likeliest; a facet it states otherwise, or does not state, as the table says. */
function chanceByFacets(cause: Cause, table: Guide['facetTables'][number]): number {
  const facets: Readonly<Record<string, readonly string[] | undefined>> = cause.facets ?? {};
  let best: number | null = null;
  let isStated = false;
  for (const [key, strength] of Object.entries(table.given)) {
    const [facet = '', value = ''] = key.split('.');
    const stated = facets[facet];
    if (stated === undefined) continue;
    isStated = true;
    if (stated.includes(value)) best = Math.max(best ?? 0, strengthProbability(strength));
  }
  return best ?? strengthProbability(isStated ? table.otherwise : table.notStated);
}
