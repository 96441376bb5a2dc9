import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { propagate } from '../../src-core/inference/queries/calibrated-network.ts';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import { faultsOf, written } from './hand-made-guide.ts';

const found = (before: string, after: string) =>
  faultsOf(written(before, after)).map(({ code, message, remedy, pointsAt }) => ({
    code,
    text: `${message} - ${remedy}`,
    pointsAt: pointsAt?.trim() ?? '',
  }));

const DUST = 'strength: { slight: 0.7, heavy: 0.3 }';
const GRIP = 'strength: { low: 0.8, high: 0.05 }';

describe('a strength that does not fit what is observed', () => {
  it.each([
    [
      DUST,
      'strength: often',
      'one strength for "dust-at-gear", which has slight, heavy - write {slight: …, heavy: …}',
    ],
    [GRIP, 'strength: often', 'one strength for "grip-force", which has low, high'],
    [DUST, 'strength: { slight: 0.7, much: 0.3 }', '"dust-at-gear" has no much - use slight, heavy'],
    // The first grade is what is left over: nobody says how often nothing is seen.
    [DUST, 'strength: { none: 0.3, slight: 0.7 }', '"dust-at-gear" has no none'],
    [GRIP, 'strength: { normal: 0.3 }', '"grip-force" has no normal'],
    [
      DUST,
      'strength: { slight: 0.3, heavy: 0.7 }',
      'more likely at least heavy than at least the grade below',
    ],
    [DUST, 'strength: { heavy: 0.1 }', 'more likely at least heavy than at least the grade below'],
    [GRIP, 'strength: { low: 0.6, high: 0.4 }', 'add up to 1.00 - bands exclude each other'],
    [GRIP, 'strength: { low: usually, high: often }', 'add up to 1.60'],
    ['leak: { strength: { slight: 0.02 }', 'leak: { strength: 0.02', 'one strength for "dust-at-gear"'],
    ['leak: { strength: { low: 0.02 }', 'leak: { strength: { tiny: 0.02 }', '"grip-force" has no tiny'],
  ])('%s → %s', (before, after, text) => {
    const faults = found(before, after);
    expect(faults.map(({ code }) => code)).toEqual(['bad-strength']);
    expect(faults[0]?.text).toContain(text);
    expect(faults[0]?.pointsAt).toContain(after);
  });

  it.each([
    [DUST, 'strength: { slight: 0.4, heavy: 0.4 }'],
    [DUST, 'strength: { slight: 0.4 }'],
    [GRIP, 'strength: { low: 0.6, high: 0.39 }'],
    ['to: thin-lines, strength: 0.6', 'to: thin-lines, strength: { present: often }'],
  ])('%s → %s is none', (before, after) => expect(found(before, after)).toEqual([]));

  it('stands in a table too, of a cause and of what is met without one', () => {
    const inTable = (row: string) =>
      found(
        'topic: Feed\n',
        `topic: Feed\nlinkTables:\n  - id: dust-at-gear\n    ${row}\n    source: estimate\n`,
      );
    expect(inTable('from: { spring-slack: 0.4 }').map(({ code, pointsAt }) => [code, pointsAt])).toEqual([
      ['bad-strength', 'from: { spring-slack: 0.4 }'],
    ]);
    expect(inTable('from: {}\n    leak: 0.4').map(({ code, pointsAt }) => [code, pointsAt])).toEqual([
      ['bad-strength', 'leak: 0.4'],
    ]);
    expect(inTable('from: { spring-slack: { slight: 0.4 } }')).toEqual([]);
  });

  it('is no strength by grades where a mechanism is driven', () =>
    expect(found('to: gear-slips, strength: 0.8', 'to: gear-slips, strength: { slight: 0.8 }')).toEqual([
      {
        code: 'bad-strength',
        text: '"teeth-worn" drives "gear-slips" by grades - mechanisms have no grades: give one strength',
        pointsAt: '- { to: gear-slips, strength: { slight: 0.8 }, source: estimate }',
      },
    ]));
});

describe('what is linked twice would count twice', () => {
  it.each([
    ['shows', '- { to: grip-force, strength: { low: 0.8, high: 0.05 }, source: estimate }'],
    ['shows', '- { to: thin-lines, strength: 0.6, source: estimate }'],
    ['drives', '- { to: gear-slips, strength: 0.8, source: estimate }'],
  ])('%s %s', (verb, link) => {
    const again = link.replace('source', 'note: Once more., source');
    const faults = found(link, `${link}\n      ${again}`);
    expect(faults.map(({ code, pointsAt }) => [code, pointsAt])).toEqual([['doubled-link', again]]);
    expect(faults[0]?.text).toMatch(new RegExp(`${verb} ".*" twice - keep one`));
  });
});

describe('bands of a measurement cover every value once', () => {
  const bandsOf = (...bands: readonly string[]) => {
    const before = `        - { id: normal, label: Normal, from: 20, below: 60 }
        - { id: low, label: Low, below: 20 }
        - { id: high, label: High, from: 60 }`;
    const names = ['normal', 'low', 'high'];
    const after = bands.map((band, k) => `        - { id: ${names[k]}, label: B, ${band} }`).join('\n');
    return found(before, after);
  };

  it.each([
    ['a gap', ['from: 20, below: 50', 'below: 20', 'from: 60'], 'gap or overlap at 60'],
    ['an overlap', ['from: 10, below: 60', 'below: 20', 'from: 60'], 'gap or overlap at 10'],
    [
      'nothing below the first',
      ['from: 20, below: 60', 'from: 0, below: 20', 'from: 60'],
      'gap or overlap at 0',
    ],
    ['nothing above the last', ['from: 20, below: 60', 'below: 20', 'from: 60, below: 90'], 'end at 90'],
    ['two open at the start', ['below: 60', 'below: 20', 'from: 60'], 'gap or overlap at the start'],
  ])('%s is told', (_, bands, text) => {
    const faults = bandsOf(...bands);
    expect(faults.map(({ code, pointsAt }) => [code, pointsAt])).toEqual([['bad-bands', 'measure:']]);
    expect(faults[0]?.text).toContain(text);
  });

  it('wherever the normal one lies and in whatever order', () => {
    expect(bandsOf('below: 20', 'from: 20, below: 60', 'from: 60')).toEqual([]);
    expect(bandsOf('from: 60', 'from: 20, below: 60', 'below: 20')).toEqual([]);
  });
});

describe('kind and scale of an observation go together', () => {
  it('a measurement has bands, and nothing else has', () => {
    expect(
      found('kind: measurement', 'kind: hand-test').map(({ code, pointsAt }) => [code, pointsAt]),
    ).toEqual([['no-measure', 'kind: hand-test']]);
    const ofDust = 'kind: sign\n    place: spool-and-feed\n    grades:';
    expect(found(ofDust, ofDust.replace('sign', 'measurement')).map(({ code }) => code)).toEqual([
      'no-measure',
    ]);
  });

  it('grades and bands exclude each other', () => {
    const grades = 'grades: [{ id: a, label: A }, { id: b, label: B }, { id: c, label: C }]';
    const faults = found('    measure:\n', `    ${grades}\n    measure:\n`);
    expect(faults.filter(({ code }) => code === 'two-scales').map(({ pointsAt }) => pointsAt)).toEqual([
      grades,
    ]);
  });
});

it('whatever strengths an author writes: what passes the checks, reasoning takes', () => {
  const figure = fc.oneof(
    fc.constantFrom('always', 'often', 'seldom', 'hardly ever', '0.0001', '0.9999'),
    fc.double({ min: 0.001, max: 0.5, noNaN: true }).map((p) => p.toFixed(3)),
  );
  const record = (a: string, b: string) =>
    fc.oneof(
      figure,
      fc.record({ [a]: figure, [b]: figure }, { requiredKeys: [] }).map(
        (some) =>
          `{ ${Object.entries(some)
            .map(([key, value]) => `${key}: ${value}`)
            .join(', ')} }`,
      ),
    );
  let passed = 0;
  fc.assert(
    fc.property(
      record('slight', 'heavy'),
      record('low', 'high'),
      figure,
      fc.boolean(),
      (dust, grip, drive, isTwice) => {
        const link = `- { to: gear-slips, strength: ${drive}, source: estimate }`;
        const texts = written(DUST, `strength: ${dust}`).map(({ file, text }) => ({
          file,
          text: text
            .replace(GRIP, `strength: ${grip}`)
            .replace(
              '- { to: gear-slips, strength: 0.8, source: estimate }',
              isTwice ? `${link}\n      ${link}` : link,
            ),
        }));
        const loaded = loadKnowledge(texts);
        if (!loaded.ok) return;
        passed++;
        const { graph } = loaded.knowledge;
        const evidence = graph.observations.map((_, observation) => ({
          observation,
          kind: 'level' as const,
          level: 0,
        }));
        expect(
          propagate(
            graph,
            graph.causes.map(({ prior }) => prior),
            evidence,
          )?.logEvidence,
        ).toBeLessThan(0);
      },
    ),
    { numRuns: 200, seed: 7 },
  );
  expect(passed).toBeGreaterThan(10);
});
