import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatFault } from '../../src-core/knowledge/fault.ts';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import { parseKnowledge } from '../../src-core/knowledge/parse.ts';
import { faultsOf, HAND_MADE, written } from './hand-made-guide.ts';

const found = (before: string, after: string) => faultsOf(written(before, after));

describe('what an author mistypes is told at its line, with what would be right', () => {
  it.each([
    [
      'place: walls-and-tops',
      'place: walls-and-top',
      'observations › thin-lines › place',
      'did you mean "walls-and-tops"?',
    ],
    [
      'perHundredCases: 5,',
      'perHundredCases: 61,',
      'causes › teeth-worn › prior › perHundredCases',
      'value of the form',
    ],
    [
      'perHundredCases: 5,',
      'perHundredCases: 0,',
      'causes › teeth-worn › prior › perHundredCases',
      'value of the form',
    ],
    [
      'timesOdds: 2',
      'timesOdds: 0',
      'causes › teeth-worn › movedBy › entry 1 › timesOdds',
      'value of the form',
    ],
    ['id: spring-slack', 'id: Spring slack', 'lower-case words joined by hyphens', 'value of the form'],
    [
      'source: common practice',
      'source: my uncle',
      'write "common practice", "estimate" or "published',
      'value of the form',
    ],
    [
      'minutes: { handsOn: 3 }',
      'minutes: { handsOn: 0 }',
      'remedies › tighten-spring › minutes › handsOn',
      'value of the form',
    ],
    [
      '- { to: grip-force, strength: { low: 0.8, high: 0.05 }',
      '- { to: grip-force, strength: { low: 1, high: 0.05 }',
      'causes › spring-slack › shows › entry 1',
      'value of the form',
    ],
  ])('%s → %s', (before, after, message, remedy) => {
    const faults = found(before, after).filter((one) => formatFault(one).includes(message));
    expect(faults.map(({ code, file }) => [code, file])).toContainEqual(['bad-shape', 'feed.yaml']);
    expect(faults[0]?.remedy).toContain(remedy);
    expect(faults[0]?.pointsAt).toContain(after);
  });

  it('a key that nobody knows is named, beside the one that is missing for it', () =>
    expect(
      found('summary: Worn down.', 'sumary: Worn down.').map(({ message, remedy, pointsAt }) => [
        `${message} - ${remedy}`,
        pointsAt,
      ]),
    ).toEqual([
      [expect.stringContaining('causes › teeth-worn › summary'), '  - id: teeth-worn'],
      [expect.stringMatching(/^causes › teeth-worn: .* - remove or rename "sumary"/), '  - id: teeth-worn'],
    ]));

  it('an entry without an id is told by its place in the list', () =>
    expect(
      found('  - id: spring-slack\n    label', '  - label').map(({ message }) => message.split(':')[0]),
    ).toEqual(['causes › entry 3 › id']));
});

describe('a file that is no YAML', () => {
  it('is told at its line and does not hide the faults of the other files', () => {
    const texts = [
      { file: 'a.yaml', text: 'topic: A\ncauses:\n  - id: x\n    label: Nozzle: worn\n' },
      { file: 'b.yaml', text: 'topic: B\ncauses:\n  - id: y\n    label: Y\n    famly: feed\n' },
      { file: 'c.yaml', text: 'topic: C\n' },
    ];
    const { files, faults } = parseKnowledge(texts);
    expect(files.map(({ file }) => file)).toEqual(['c.yaml']);
    expect(faults[0]).toMatchObject({ code: 'not-yaml', file: 'a.yaml', line: 4 });
    expect(faults[0]?.remedy).toContain('colon');
    expect(new Set(faults.slice(1).map(({ file }) => file))).toEqual(new Set(['b.yaml']));
    expect(loadKnowledge(texts)).toMatchObject({ ok: false, faults });
  });

  it('with one key twice is told, so that no value is lost without a word', () =>
    expect(
      found('    summary: Worn down.', '    summary: Worn down.\n    summary: Worn off.')[0],
    ).toMatchObject({
      code: 'not-yaml',
      pointsAt: '    summary: Worn off.',
    }));

  it('whatever stands in it, gives faults or a guide and never an exception', () => {
    const pieces = fc.constantFrom(
      'topic: T',
      'causes:',
      '- id: a',
      '  - {',
      '&x',
      '*x',
      '!!int z',
      '"',
      '\t',
      '- - -',
      '[',
      'null',
      '---',
    );
    fc.assert(
      fc.property(fc.array(fc.oneof(pieces, fc.string({ maxLength: 12 })), { maxLength: 12 }), (lines) => {
        const text = lines.join('\n');
        const { files, faults } = parseKnowledge([{ file: 'x.yaml', text }]);
        expect(files.length > 0).toBe(faults.length === 0);
        for (const { line } of faults) {
          expect(line).toBeGreaterThanOrEqual(1);
          expect(line).toBeLessThanOrEqual(text.split('\n').length);
        }
      }),
      { numRuns: 400, seed: 3 },
    );
  });
});

describe('a guide', () => {
  it('is known by its content: any changed word, name or order of texts makes it another', () => {
    const versionOf = (texts: typeof HAND_MADE) => {
      const loaded = loadKnowledge(texts);
      if (!loaded.ok) throw new Error(loaded.faults.map(formatFault).join('\n'));
      return loaded.knowledge.version;
    };
    const plain = versionOf(HAND_MADE);
    expect(versionOf([...HAND_MADE])).toBe(plain);
    expect(versionOf(written('Gloves on.', 'Gloves on!'))).not.toBe(plain);
    expect(versionOf(HAND_MADE.map((one) => ({ ...one, file: `x-${one.file}` })))).not.toBe(plain);
    // What moves from one file's end to the next one's name is another guide as well.
    const [first, second] = HAND_MADE;
    if (!first || !second) throw new Error('two files');
    expect(versionOf([{ ...first, text: `${first.text}\n` }, second])).not.toBe(plain);
  });

  it('with any fault at all is no guide', () =>
    expect(loadKnowledge(written('practices: [never-cleaned]', 'practices: [never]'))).toMatchObject({
      ok: false,
      faults: [{ code: 'dangling-id' }],
    }));
});

it('a fault reads like a compiler message, so that an editor jumps to it', () =>
  expect(
    formatFault({
      code: 'cycle',
      file: 'causes/feed.yaml',
      line: 12,
      message: 'goes back',
      remedy: 'turn it',
    }),
  ).toBe('causes/feed.yaml:12: goes back - turn it [cycle]'));
