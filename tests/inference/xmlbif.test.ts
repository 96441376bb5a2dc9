import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { queryGeneral } from '../../src-core/inference/general/query-general.ts';
import type { GraphEvidence, GraphModel } from '../../src-core/inference/network/graph-model.ts';
import { infer } from '../../src-core/inference/queries/infer.ts';
import { expandGates } from '../../src-core/inference/interchange/expand-gates.ts';
import { readXmlbif } from '../../src-core/inference/interchange/read-xmlbif.ts';
import { writeXmlbif } from '../../src-core/inference/interchange/write-xmlbif.ts';
import { cutModel } from '../peers/cut-model.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { randomCases } from './random-model.ts';

function readBack(text: string) {
  const reading = readXmlbif(text);
  if (!reading.ok) throw new Error(`line ${reading.line}: ${reading.message}`);
  return reading.network;
}

/** Posteriors of causes and mechanisms by the general engine on the exported and re-read network. */
function byWayOfFile(model: GraphModel, priors: readonly number[], evidence: readonly GraphEvidence[]) {
  const network = readBack(writeXmlbif(expandGates(model, priors)));
  const at = new Map(network.variables.map(({ id }, index) => [id, index]));
  const given = new Map<number, number>();
  for (const finding of evidence) {
    if (finding.kind !== 'level') throw new Error('levels only');
    given.set(at.get(model.observations[finding.observation]?.id ?? '') ?? -1, finding.level);
  }
  const found = queryGeneral(network, given);
  if (found.kind !== 'ok') return null;
  const present = ({ id }: { id: string }) => found.posteriors[at.get(id) ?? -1]?.[1] ?? NaN;
  return { causes: model.causes.map(present), mechanisms: model.mechanisms.map(present) };
}

describe('a network written as XMLBIF and read back', () => {
  it('gives the posteriors of the layered engine, also where gates have been divorced', () => {
    let divorced = 0;
    fc.assert(
      fc.property(
        randomCases({ causes: 6, mechanisms: 2, observations: 4, softEvidence: false }),
        ({ model, priors, evidence }) => {
          const ours = infer(model, priors, evidence);
          const theirs = byWayOfFile(model, priors, evidence);
          expect(theirs === null).toBe(ours.kind === 'impossible-evidence');
          if (!theirs || ours.kind !== 'ok' || !ours.exact) return;
          divorced += model.observations.filter(({ links }) => links.length > 3).length;
          theirs.causes.forEach((p, cause) => expect(p).toBeCloseTo(ours.causes[cause] ?? NaN, 9));
          theirs.mechanisms.forEach((p, k) => expect(p).toBeCloseTo(ours.mechanisms[k] ?? NaN, 9));
        },
      ),
      { numRuns: 150, seed: 91 },
    );
    expect(divorced).toBeGreaterThan(20);
  });

  it('is the same network, number for number', () => {
    fc.assert(
      fc.property(randomCases({ causes: 6, mechanisms: 2, observations: 4 }), ({ model, priors }) => {
        const network = expandGates(model, priors, undefined, 'a < b & "c"');
        const again = readBack(writeXmlbif(network));
        const byId = new Map(again.variables.map((variable) => [variable.id, variable]));
        expect(again.name).toBe(network.name);
        expect(again.variables).toHaveLength(network.variables.length);
        for (const { id, states, parents, table } of network.variables) {
          const other = byId.get(id);
          expect(other?.states).toBe(states);
          expect(other?.parents.map((parent) => again.variables[parent]?.id)).toEqual(
            parents.map((parent) => network.variables[parent]?.id),
          );
          other?.table.forEach((p, entry) => expect(p).toBeCloseTo(table[entry] ?? NaN, 14));
        }
      }),
      { numRuns: 40, seed: 92 },
    );
  });
});

describe('the shipped guide', () => {
  const knowledge = shippedKnowledge();
  const { graph } = knowledge;
  const { priors } = knowledge.priorsUnder({});

  it('comes out whole: every variable, every table of small size, every row summing to 1', () => {
    const network = readBack(writeXmlbif(expandGates(graph, priors)));
    const ids = new Set(network.variables.map(({ id }) => id));
    for (const { id } of [...graph.causes, ...graph.mechanisms, ...graph.observations]) {
      expect(ids.has(id), id).toBe(true);
    }
    for (const { id, states, table } of network.variables) {
      expect(table.length, id).toBeLessThanOrEqual(8 * states * states);
      for (let at = 0; at < table.length; at += states) {
        expect(table.slice(at, at + states).reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
      }
    }
  });

  it('gives the same answers by way of the file, in a corner that the general engine can hold', () => {
    const ids = ['wet-filament', 'nozzle-temperature-too-high', 'partial-nozzle-clog', 'heat-creep'];
    const causes = ids.map((id) => knowledge.causeIndex.get(id) ?? -1);
    const whole = cutModel(graph, causes, 8);
    const seen = [
      ['popping-while-loading', 2],
      ['stringing', 1],
      ['gear-clicks', 0],
    ] as const;
    const model = {
      ...whole,
      observations: whole.observations.filter(({ id }) => seen.some(([name]) => name === id)),
    };
    const evidence = seen.flatMap(([id, level]): GraphEvidence[] => {
      const observation = model.observations.findIndex((one) => one.id === id);
      return observation < 0 ? [] : [{ observation, kind: 'level', level }];
    });
    expect(evidence.length).toBeGreaterThanOrEqual(2);
    const corner = causes.map((index) => priors[index] ?? 0);
    const ours = infer(model, corner, evidence);
    const theirs = byWayOfFile(model, corner, evidence);
    if (ours.kind !== 'ok' || !ours.exact || !theirs) throw new Error('no answer');
    theirs.causes.forEach((p, cause) => expect(p).toBeCloseTo(ours.causes[cause] ?? NaN, 9));
    theirs.mechanisms.forEach((p, k) => expect(p).toBeCloseTo(ours.mechanisms[k] ?? NaN, 9));
  });
});

describe('readXmlbif', () => {
  /** The rows of dog-out as in the dog problem of Charniak, Bayesian Networks without Tears, AI Magazine 12 (1991). */
  const DOG = `<?xml version="1.0"?>
<!DOCTYPE BIF [ <!ELEMENT BIF ( NETWORK )*> ]>
<!-- children may stand before their parents -->
<BIF VERSION="0.3"><NETWORK><NAME>dog</NAME>
<VARIABLE TYPE="nature"><NAME>dog-out</NAME><OUTCOME>true</OUTCOME><OUTCOME>false</OUTCOME></VARIABLE>
<VARIABLE TYPE="nature"><NAME>bowel-problem</NAME><OUTCOME>true</OUTCOME><OUTCOME>false</OUTCOME></VARIABLE>
<VARIABLE><NAME>family-out</NAME><OUTCOME>true</OUTCOME><OUTCOME>false</OUTCOME><PROPERTY>x = 1</PROPERTY></VARIABLE>
<DEFINITION><FOR>dog-out</FOR><GIVEN>bowel-problem</GIVEN><GIVEN>family-out</GIVEN>
<TABLE>0.99 0.01 0.97 0.03 0.9 0.1 0.3 0.7</TABLE></DEFINITION>
<DEFINITION><FOR>bowel-problem</FOR><TABLE>0.01 0.99</TABLE></DEFINITION>
<DEFINITION><FOR>family-out</FOR><TABLE>0.15 0.85</TABLE></DEFINITION>
</NETWORK></BIF>
`;

  it('takes the given variables first and the variable itself fastest', () => {
    const network = readBack(DOG);
    const index = network.variables.findIndex(({ id }) => id === 'dog-out');
    const found = queryGeneral(network, new Map());
    if (found.kind !== 'ok') throw new Error(found.kind);
    // By hand: 0.01 (0.15 x 0.99 + 0.85 x 0.97) + 0.99 (0.15 x 0.9 + 0.85 x 0.3)
    expect(found.posteriors[index]?.[0]).toBeCloseTo(0.395_830, 12);
  });

  it.each([
    ['a table too short', ' 0.3 0.7</TABLE>', '</TABLE>', 9, /"dog-out" must have 8 numbers, got 6/],
    ['a row that does not sum to 1', '0.9 0.1', '0.9 0.2', 9, /row 3 of the table of "dog-out"/],
    ['a number that is none', '0.15 0.85', '0.15 x', 11, /must hold probabilities, got x/],
    [
      'a parent that is no variable',
      '<GIVEN>family-out',
      '<GIVEN>family',
      8,
      /"family", which is no variable/,
    ],
    ['a variable defined twice', '<FOR>family-out', '<FOR>bowel-problem', 11, /defined twice/],
    [
      'a variable given itself',
      '<FOR>family-out</FOR>',
      '<FOR>family-out</FOR><GIVEN>family-out</GIVEN>',
      11,
      /a variable twice/,
    ],
    [
      'a variable without a definition',
      '<DEFINITION><FOR>family-out</FOR><TABLE>0.15 0.85</TABLE></DEFINITION>',
      '',
      7,
      /"family-out" has no <DEFINITION>/,
    ],
    ['a decision', 'TYPE="nature"><NAME>bowel', 'TYPE="decision"><NAME>bowel', 6, /TYPE nature/],
    ['another version', 'VERSION="0.3"', 'VERSION="0.5"', 4, /VERSION must be 0.3, got 0.5/],
    [
      'an unknown tag',
      '<PROPERTY>x = 1</PROPERTY>',
      '<COLOUR/>',
      7,
      /<COLOUR> does not belong into <VARIABLE>/,
    ],
    [
      'tags that cross',
      '</NETWORK></BIF>',
      '</BIF></NETWORK>',
      12,
      /<\/BIF> closes nothing: <NETWORK> is open/,
    ],
    ['an end that is missing', '</NETWORK></BIF>', '', 4, /<NETWORK> is never closed/],
    ['an entity of its own', 'x = 1', '&x;', 7, /"&x;" is no known entity/],
    ['text beside elements', '<NETWORK>', '<NETWORK>dog', 4, /holds both text and elements/],
  ])('refuses %s, naming the line', (_what, from, to, line, message) => {
    expect(DOG).toContain(from);
    const reading = readXmlbif(DOG.replace(from, to));
    if (reading.ok) throw new Error('read');
    expect(reading.message).toMatch(message);
    expect(reading.line).toBe(line);
  });

  it('refuses a network in which a variable is its own ancestor', () => {
    const looped = DOG.replace(
      '<FOR>bowel-problem</FOR><TABLE>0.01 0.99',
      '<FOR>bowel-problem</FOR><GIVEN>dog-out</GIVEN><TABLE>0.01 0.99 0.01 0.99',
    );
    expect(readXmlbif(looped)).toMatchObject({
      ok: false,
      message: expect.stringMatching(/own ancestors/) as string,
    });
  });
});
