import type { GeneralVariable } from '../general/query-general.ts';
import type { NamedNetwork } from './named-network.ts';
import { readElements, XmlFault, type XmlElement } from './read-elements.ts';

export type XmlbifReading =
  | { readonly ok: true; readonly network: NamedNetwork }
  /** What is wrong, and on which line (from 1). */
  | { readonly ok: false; readonly line: number; readonly message: string };

/** Furthest that a row of a table may be from 1; files written with few digits are no mistake. */
const TOLERANCE = 1e-6;

interface Definition {
  readonly id: string;
  readonly given: readonly string[];
  readonly table: readonly number[];
  readonly line: number;
}

/**
 * Reads XMLBIF 0.3: one network of variables of TYPE nature, each with outcomes and one definition by a full table.
 * Properties are passed over. Variables come out with parents before children. Rows may be off 1 by `TOLERANCE` and are
 * scaled to 1.
 */
export function readXmlbif(text: string): XmlbifReading {
  try {
    return { ok: true, network: networkOf(readElements(text)) };
  } catch (error) {
    if (!(error instanceof XmlFault)) throw error;
    return { ok: false, line: error.line, message: error.message };
  }
}

function networkOf(root: XmlElement): NamedNetwork {
  if (root.name !== 'BIF') throw new XmlFault(root.line, `the file must be a <BIF>, got <${root.name}>`);
  const version = root.attributes.get('VERSION');
  if (version !== '0.3') throw new XmlFault(root.line, `VERSION must be 0.3, got ${version ?? 'none'}`);
  const [network, second] = childrenOf(root, ['NETWORK']);
  if (!network || second) throw new XmlFault((second ?? root).line, 'a <BIF> must hold one <NETWORK>');
  const parts = childrenOf(network, ['NAME', 'PROPERTY', 'VARIABLE', 'DEFINITION']);
  const outcomes = new Map<string, readonly string[]>();
  const lineOf = new Map<string, number>();
  for (const part of parts.filter(({ name }) => name === 'VARIABLE')) {
    const type = part.attributes.get('TYPE') ?? 'nature';
    if (type !== 'nature')
      throw new XmlFault(part.line, `only variables of TYPE nature can be read, got ${type}`);
    const inside = childrenOf(part, ['NAME', 'OUTCOME', 'PROPERTY']);
    const id = textOf(part, inside, 'NAME');
    if (outcomes.has(id)) throw new XmlFault(part.line, `variable "${id}" stands twice`);
    const names = inside.filter(({ name }) => name === 'OUTCOME').map((outcome) => outcome.text);
    if (names.length === 0) throw new XmlFault(part.line, `variable "${id}" has no <OUTCOME>`);
    outcomes.set(id, names);
    lineOf.set(id, part.line);
  }
  const definitions = new Map<string, Definition>();
  for (const part of parts.filter(({ name }) => name === 'DEFINITION')) {
    const definition = definitionOf(part, outcomes);
    if (definitions.has(definition.id)) throw new XmlFault(part.line, `"${definition.id}" is defined twice`);
    definitions.set(definition.id, definition);
  }
  for (const [id, line] of lineOf) {
    if (!definitions.has(id)) throw new XmlFault(line, `variable "${id}" has no <DEFINITION>`);
  }
  const order = parentsFirst(definitions);
  const at = new Map(order.map(({ id }, index) => [id, index]));
  return {
    name: textOf(network, parts, 'NAME'),
    variables: order.map(({ id, given, table }): GeneralVariable => ({
      id,
      states: outcomes.get(id)?.length ?? 0,
      parents: given.map((parent) => at.get(parent) ?? -1),
      table,
    })),
    outcomes: order.map(({ id }) => outcomes.get(id) ?? []),
  };
}

function definitionOf(part: XmlElement, outcomes: ReadonlyMap<string, readonly string[]>): Definition {
  const inside = childrenOf(part, ['FOR', 'GIVEN', 'TABLE', 'PROPERTY']);
  const id = textOf(part, inside, 'FOR');
  const given = inside.filter(({ name }) => name === 'GIVEN').map((one) => one.text);
  for (const name of [id, ...given]) {
    if (!outcomes.has(name))
      throw new XmlFault(part.line, `a definition names "${name}", which is no variable`);
  }
  if (new Set([id, ...given]).size <= given.length) {
    throw new XmlFault(part.line, `the definition of "${id}" names a variable twice`);
  }
  const states = outcomes.get(id)?.length ?? 0;
  const rows = given.reduce((product, name) => product * (outcomes.get(name)?.length ?? 0), 1);
  const source = inside.find(({ name }) => name === 'TABLE') ?? part;
  const numbers = textOf(part, inside, 'TABLE').split(/\s+/).filter(Boolean);
  if (numbers.length !== rows * states) {
    throw new XmlFault(
      source.line,
      `the table of "${id}" must have ${rows * states} numbers, got ${numbers.length}`,
    );
  }
  const table = numbers.map((word) => {
    const value = Number(word);
    if (!(value >= 0 && value <= 1 + TOLERANCE)) {
      throw new XmlFault(source.line, `the table of "${id}" must hold probabilities, got ${word}`);
    }
    return value;
  });
  for (let row = 0; row < rows; row++) {
    const sum = table.slice(row * states, (row + 1) * states).reduce((total, p) => total + p, 0);
    if (!(Math.abs(sum - 1) <= TOLERANCE)) {
      throw new XmlFault(source.line, `row ${row + 1} of the table of "${id}" must sum to 1, got ${sum}`);
    }
    for (let k = row * states; k < (row + 1) * states; k++) table[k] = (table[k] ?? 0) / sum;
  }
  return { id, given, table, line: part.line };
}

function parentsFirst(definitions: ReadonlyMap<string, Definition>): Definition[] {
  const order: Definition[] = [];
  const stateOf = new Map<string, 'open' | 'done'>();
  // A stack of its own: a chain may be longer than calls can be nested.
  const path: { readonly definition: Definition; nextParent: number }[] = [];
  const enter = (definition: Definition): void => {
    const state = stateOf.get(definition.id);
    if (state === 'done') return;
    if (state === 'open')
      throw new XmlFault(definition.line, `"${definition.id}" is among its own ancestors`);
    stateOf.set(definition.id, 'open');
    path.push({ definition, nextParent: 0 });
  };
  for (const first of definitions.values()) {
    enter(first);
    for (let top = path.at(-1); top; top = path.at(-1)) {
      const { definition, nextParent } = top;
      const parent = definition.given[nextParent];
      if (parent === undefined) {
        stateOf.set(definition.id, 'done');
        order.push(definition);
        path.pop();
        continue;
      }
      top.nextParent += 1;
      const next = definitions.get(parent);
      if (next) enter(next);
    }
  }
  return order;
}

function childrenOf(element: XmlElement, allowed: readonly string[]): readonly XmlElement[] {
  const stranger = element.children.find(({ name }) => !allowed.includes(name));
  if (stranger)
    throw new XmlFault(stranger.line, `<${stranger.name}> does not belong into <${element.name}>`);
  return element.children;
}

/** Text of the one child with this name. */
function textOf(element: XmlElement, children: readonly XmlElement[], name: string): string {
  const [only, second] = children.filter((child) => child.name === name);
  if (!only || second)
    throw new XmlFault((second ?? element).line, `<${element.name}> must hold one <${name}>`);
  return only.text;
}
