import { describe, expect, it } from 'vitest';
import { checkFormerIds } from '../../src-core/knowledge/check-former-ids.ts';
import { placeEntries } from '../../src-core/knowledge/placed-lists.ts';
import { parseKnowledge } from '../../src-core/knowledge/parse.ts';
import { faultsOf, HAND_MADE, written } from './hand-made-guide.ts';

const found = (before: string, after: string) =>
  faultsOf(written(before, after)).map(({ code, message, pointsAt }) => [code, message, pointsAt?.trim()]);

/** The guide with one more entry at the head of a list. */
const withEntry = (list: string, entry: string) => written(`\n${list}:\n`, `\n${list}:\n${entry}\n`);

const SIGN = `  - id: odd-smell
    label: Odd smell
    ask: Does it smell?
    kind: sign
    place: free-air
    leak: { strength: 0.02, source: estimate }
    check: { how: Smell., minutes: 1, machine: any, countsAsPresent: A smell., nullRulesOut: Little. }`;
const CAUSE = `  - id: belt-slack
    label: Belt slack
    family: motion
    summary: Slack.
    prior: { perHundredCases: 1, source: estimate }`;
const tables = (text: string) => ({ file: 'tables.yaml', text: `topic: Tables\n${text}\n` });

describe('an entry that the rest of the guide never comes to', () => {
  it('an observation that nothing causes is told', () => {
    const texts = withEntry('observations', SIGN);
    expect(faultsOf(texts).map(({ code, message, pointsAt }) => [code, message, pointsAt])).toEqual([
      ['unexplained-observation', 'nothing causes "odd-smell"', '  - id: odd-smell'],
    ]);
    // A link of a cause, a row of a table or a table of facets each explain it.
    for (const table of [
      'linkTables: [{ id: odd-smell, from: { teeth-worn: 0.2 }, source: estimate }]',
      'facetTables: [{ id: odd-smell, given: {}, otherwise: 0.1, notStated: 0.2, source: estimate }]',
    ])
      expect(faultsOf([...texts, tables(table)])).toEqual([]);
    const smelt =
      'shows:\n      - { to: odd-smell, strength: 0.2, source: estimate }\n      - { to: grip-force';
    expect(
      faultsOf(
        texts.map((one) => ({ ...one, text: one.text.replace('shows:\n      - { to: grip-force', smelt) })),
      ),
    ).toEqual([]);
  });

  it('a mechanism that nothing drives', () =>
    expect(found('    drives:\n      - { to: gear-slips, strength: 0.8, source: estimate }\n', '')).toEqual([
      ['undriven-mechanism', 'nothing drives "gear-slips"', '- id: gear-slips'],
    ]));

  it('a cause that nobody would notice and that nothing removes', () => {
    const texts = withEntry('causes', CAUSE);
    const codes = (more: readonly { file: string; text: string }[]) =>
      faultsOf([...texts, ...more]).map(({ code, message }) => `${code}: ${message}`);
    const irremediable = 'irremediable-cause: no remedy removes "belt-slack"';
    expect(codes([])).toEqual(['unobservable-cause: nothing shows "belt-slack"', irremediable]);
    // Named in a table it is noticed.
    expect(
      codes([tables('linkTables: [{ id: thin-lines, from: { belt-slack: 0.2 }, source: estimate }]')]),
    ).toEqual([irremediable]);
    // By what it drives it is, too.
    const driving = `${CAUSE}\n    drives: [{ to: gear-slips, strength: 0.5, source: estimate }]`;
    expect(faultsOf(withEntry('causes', driving)).map(({ code }) => code)).toEqual(['irremediable-cause']);
  });

  it('"not in this guide" needs neither, and must be there', () =>
    expect(found('- id: cause-not-in-guide', '- id: spool-snagged').map(([code]) => code)).toEqual([
      'unobservable-cause',
      'irremediable-cause',
      'no-leak',
    ]));
});

describe('the isotherm of a desiccant', () => {
  const holds = (...points: readonly (readonly [number, number])[]) =>
    faultsOf([
      ...HAND_MADE,
      {
        file: 'dry.yaml',
        text: [
          'topic: Dry\ndesiccants:\n  - id: gel\n    label: Gel\n    regenerate: Bake.\n    source: estimate\n    holds:',
          ...points.map(([rh, g]) => `      - { atPercentRh: ${rh}, gPer100g: ${g} }`),
        ].join('\n'),
      },
    ]).map(({ code, pointsAt }) => [code, pointsAt?.trim()]);

  it.each([
    [
      'that falls',
      [
        [10, 5],
        [40, 22],
        [80, 20],
      ],
      '- { atPercentRh: 80, gPer100g: 20 }',
    ],
    [
      'with two points at one humidity',
      [
        [10, 5],
        [10, 6],
        [80, 20],
      ],
      '- { atPercentRh: 10, gPer100g: 6 }',
    ],
    [
      'from humid to dry',
      [
        [80, 20],
        [10, 5],
      ],
      '- { atPercentRh: 10, gPer100g: 5 }',
    ],
  ] as const)('%s is told at the point', (_, points, at) =>
    expect(holds(...points)).toEqual([['falling-isotherm', at]]),
  );

  it('may run level: a full agent takes no more', () =>
    expect(holds([10, 5], [40, 20], [80, 20])).toEqual([]));
});

describe('what an entry was called before', () => {
  it('may not be the name of one in use', () =>
    expect(
      found('label: Spring slack', 'label: Spring slack\n    formerly: [spring-tired, teeth-worn]'),
    ).toEqual([
      [
        'ambiguous-former-id',
        '"spring-slack" was formerly "teeth-worn", which is in use',
        'formerly: [spring-tired, teeth-worn]',
      ],
    ]));

  it('belongs to one entry only', () => {
    const texts = written('label: Spring slack', 'label: Spring slack\n    formerly: [grip-lost]').map(
      (one) => ({
        ...one,
        text: one.text.replace('label: Teeth worn', 'label: Teeth worn\n    formerly: [grip-lost]'),
      }),
    );
    expect(faultsOf(texts).map(({ code, message }) => [code, message])).toEqual([
      ['ambiguous-former-id', '"spring-slack" was formerly "grip-lost", which "teeth-worn" was as well'],
    ]);
  });

  it.each(['conditions', 'practices', 'mechanisms', 'observations', 'causes', 'remedies'] as const)(
    'is looked at among the %s, each by itself',
    (list) => {
      // The second entry of the list says that it was once called as the first is.
      const of = (parts: readonly { readonly text: string; readonly file: string }[]) =>
        checkFormerIds(placeEntries(parseKnowledge(parts).files));
      const [first, ...others] = placeEntries(parseKnowledge(HAND_MADE).files)[list];
      const id = first?.entry.id ?? '';
      const claimant = others[0]?.entry.id ?? id;
      const texts = HAND_MADE.map(({ file, text }) => ({
        file,
        text: text.replace(`  - id: ${claimant}\n`, `  - id: ${claimant}\n    formerly: [${id}]\n`),
      }));
      expect(of(HAND_MADE)).toEqual([]);
      expect(of(texts).map(({ code }) => code)).toEqual(['ambiguous-former-id']);
    },
  );

  it('of a cause may be what a remedy is called', () =>
    expect(found('label: Spring slack', 'label: Spring slack\n    formerly: [tighten-spring]')).toEqual([]));
});
