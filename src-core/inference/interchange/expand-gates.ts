import type { GeneralVariable } from '../general/query-general.ts';
import type { GraphModel } from '../network/graph-model.ts';
import { requireUsable } from '../network/validate.ts';
import type { NamedNetwork } from './named-network.ts';

/** Parents of the layered model in one table; more go into further tables along a chain. */
const PARENTS_A_TABLE = 3;
const TWO_STATES = ['absent', 'present'];

interface GateLink {
  readonly parent: number;
  readonly levels: readonly number[];
}

/**
 * The layered model as a plain network of full tables, for tools that know no noisy gates.
 *
 * A leaky noisy-MAX of many parents would need 2^n rows, so it is divorced into a chain (Olesen et al., Applied
 * Artificial Intelligence 3 (1989)): helper `<id>--1` holds the highest level that the leak and the first three parents
 * raise, `<id>--2` the higher of that and what the next three raise, and so on; the last link of the chain is the
 * variable itself. Any order of parents gives the same distribution. P(level <= l) of a link is the product of the
 * cumulative distributions of its parents (Díez 1993), and 0 below the level of the helper before it.
 *
 * `outcomesOf` names the levels of an observation; without it they are `level-0`, `level-1`, ... Wrong use of the
 * model, and ids that occur twice, throw.
 */
export function expandGates(
  model: GraphModel,
  priors: readonly number[],
  outcomesOf: (observation: number) => readonly string[] = (observation) =>
    (model.observations[observation]?.leak ?? []).map((_, level) => `level-${level}`),
  name = 'network',
): NamedNetwork {
  requireUsable(model, priors, []);
  const variables: GeneralVariable[] = [];
  const outcomes: (readonly string[])[] = [];
  const ids = new Set<string>();
  const add = (
    id: string,
    names: readonly string[],
    parents: readonly number[],
    table: readonly number[],
  ) => {
    if (ids.has(id)) throw new RangeError(`a network names each variable once, got "${id}" twice`);
    ids.add(id);
    variables.push({ id, states: names.length, parents, table });
    outcomes.push(names);
    return variables.length - 1;
  };
  const addGate = (
    id: string,
    names: readonly string[],
    leak: readonly number[],
    links: readonly GateLink[],
  ) => {
    const tables = Math.max(1, Math.ceil(links.length / PARENTS_A_TABLE));
    let before = -1;
    for (let k = 1; k <= tables; k++) {
      const own = links.slice((k - 1) * PARENTS_A_TABLE, k * PARENTS_A_TABLE);
      const parents = [...(before < 0 ? [] : [before]), ...own.map((link) => link.parent)];
      const table = before < 0 ? firstTable(leak, own) : nextTable(leak.length, own);
      before = add(k === tables ? id : `${id}--${k}`, names, parents, table);
    }
    return before;
  };

  const causes = model.causes.map(({ id }, cause) =>
    add(id, TWO_STATES, [], [1 - (priors[cause] ?? 0), priors[cause] ?? 0]),
  );
  const mechanisms = model.mechanisms.map(({ id, leak, links }) =>
    addGate(
      id,
      TWO_STATES,
      [1 - leak, leak],
      links.map(({ cause, probability }) => ({
        parent: causes[cause] ?? -1,
        levels: [1 - probability, probability],
      })),
    ),
  );
  model.observations.forEach(({ id, leak, links }, observation) => {
    const names = outcomesOf(observation);
    if (names.length !== leak.length) {
      throw new RangeError(`"${id}" has ${leak.length} levels, got ${names.length} names for them`);
    }
    addGate(
      id,
      names,
      leak,
      links.map(({ from, levels }) => ({
        parent: (from.kind === 'cause' ? causes : mechanisms)[from.index] ?? -1,
        levels,
      })),
    );
  });
  return { name, variables, outcomes };
}

/** Rows over the parents' states, the first parent slowest. */
function firstTable(leak: readonly number[], links: readonly GateLink[]): number[] {
  return rowsOver(links).flatMap((present) => levelsOf([leak, ...present.map((link) => link.levels)]));
}

/** The same with the helper before as first parent, which raises its own level for certain. */
function nextTable(levels: number, links: readonly GateLink[]): number[] {
  return Array.from({ length: levels }, (_, reached) => {
    const certain = Array.from({ length: levels }, (__, level) => (level === reached ? 1 : 0));
    return firstTable(certain, links);
  }).flat();
}

function rowsOver(links: readonly GateLink[]): GateLink[][] {
  return Array.from({ length: 2 ** links.length }, (_, row) =>
    links.filter((__, k) => (row >> (links.length - 1 - k)) & 1),
  );
}

/** Distribution of the highest of independent levels. */
function levelsOf(distributions: readonly (readonly number[])[]): number[] {
  const count = distributions[0]?.length ?? 0;
  const atMost = Array.from({ length: count }, (_, level) =>
    level === count - 1
      ? 1
      : distributions.reduce(
          (product, levels) =>
            product *
            Math.min(
              1,
              levels.slice(0, level + 1).reduce((sum, p) => sum + p, 0),
            ),
          1,
        ),
  );
  return atMost.map((value, level) => Math.max(0, value - (atMost[level - 1] ?? 0)));
}
