import { describe, expect, it } from 'vitest';
import { faultsOf, HAND_MADE, written } from './hand-made-guide.ts';

const summary = (before: string, after: string) =>
  faultsOf(written(before, after)).map(({ code, pointsAt, remedy }) => [code, pointsAt?.trim(), remedy]);

it('a sound guide has no faults', () => expect(faultsOf(HAND_MADE)).toEqual([]));

describe('a name that nothing in the guide has', () => {
  it.each([
    ['practices: [never-cleaned]', 'practices: [never-cleand]', 'never-cleaned', 'cause "teeth-worn"'],
    ['- { to: gear-slips,', '- { to: gear-slip,', 'gear-slips', 'cause "teeth-worn"'],
    ['- { to: dust-at-gear,', '- { to: dust-at-gears,', 'dust-at-gear', 'cause "teeth-worn"'],
    ['- { to: thin-lines,', '- { to: thin-line,', 'thin-lines', 'mechanism "gear-slips"'],
    ['when: { polymer: abs }', 'when: { polimer: abs }', 'polymer', 'cause "teeth-worn"'],
    ['when: { polymer: abs }', 'when: { polymer: abz }', 'abs', 'cause "teeth-worn"'],
    [
      '        timesOdds: 2',
      '        unlessKnown: nozzle-m\n        timesOdds: 2',
      'nozzle-mm',
      'cause "teeth-worn"',
    ],
    ['- { cause: teeth-worn,', '- { cause: teeth-wron,', 'teeth-worn', 'remedy "replace-gear"'],
    ['after: [tighten-spring]', 'after: [tighten-sprin]', 'tighten-spring', 'remedy "replace-gear"'],
    ['cautions: [hot-parts] }', 'cautions: [hot-parts, hot-part] }', 'hot-parts', 'remedy "replace-gear"'],
    ['when: { polymer: [abs, pla] }', 'when: { polymer: [abs, plaa] }', 'pla', 'remedy "replace-gear"'],
    [
      'complaint: true',
      'complaint: true\n    settles: [grip-forc]',
      'grip-force',
      'observation "thin-lines"',
    ],
    [
      'complaint: true',
      'complaint: true\n    settlesWhenAbsent: [grip-forc]',
      'grip-force',
      'observation "thin-lines"',
    ],
    [
      'complaint: true',
      'complaint: true\n    shownCure: [replace-gaer]',
      'replace-gear',
      'observation "thin-lines"',
    ],
    [
      'complaint: true',
      'complaint: true\n    leadsTo: [grip-forc]',
      'grip-force',
      'observation "thin-lines"',
    ],
    [
      'complaint: true',
      'complaint: true\n    askedWhen: { polymr: abs }',
      'polymer',
      'observation "thin-lines"',
    ],
    [
      'countsAsPresent: Gaps.,',
      'cautions: [hot-part], countsAsPresent: Gaps.,',
      'hot-parts',
      'the check of "thin-lines"',
    ],
  ])('is told at its line with who says it and the nearest one: %s', (before, after, near, who) => {
    const found = faultsOf(written(before, after)).filter(({ code }) => code === 'dangling-id');
    expect(found).toHaveLength(1);
    const lines = after.split('\n');
    expect(found[0]?.pointsAt).toContain(lines.find((line) => !before.includes(line))?.trim());
    expect(found[0]?.message).toContain(who);
    expect(found[0]?.remedy).toBe(`did you mean "${near}"?`);
    expect(found[0]?.file).toBe('feed.yaml');
  });

  it('that resembles none of them is to be added or taken out', () =>
    expect(summary('practices: [never-cleaned]', 'practices: [zq]')).toEqual([
      ['dangling-id', 'practices: [zq]', 'add it to the practices or remove the mention'],
    ]));

  it('is told for each of several, not for the first only', () =>
    expect(summary('after: [tighten-spring]', 'after: [tighten-sprin, replace-gaer]')).toHaveLength(2));
});

describe('tables name only what there is', () => {
  const withTable = (table: string) => [
    ...HAND_MADE,
    { file: 'tables.yaml', text: `topic: Tables\n${table}\n` },
  ];
  it.each([
    ['linkTables: [{ id: thin-line, from: { teeth-worn: 0.5 }, source: estimate }]', 'thin-lines'],
    ['linkTables: [{ id: thin-lines, from: { teeth-wor: 0.5 }, source: estimate }]', 'teeth-worn'],
    [
      'facetTables: [{ id: thin-line, given: {}, otherwise: 0.1, notStated: 0.2, source: estimate }]',
      'thin-lines',
    ],
    [
      'facetTables: [{ id: thin-lines, given: {}, otherwise: 0.1, notStated: 0.2, saidBy: { condition: polymer, values: [abss] }, source: estimate }]',
      'abs',
    ],
    [
      'materials: [{ id: pla, label: PLA, kind: polymer, summary: A., properties: {} }]\nmixtures: [{ id: plaa, agents: {} }]',
      'pla',
    ],
  ])('%s', (table, near) => {
    const faults = faultsOf(withTable(table));
    const ofNames = faults.filter(({ code }) => code === 'dangling-id');
    expect(ofNames.map(({ file, pointsAt, remedy }) => [file, pointsAt, remedy])).toEqual([
      ['tables.yaml', table.split('\n').at(-1), `did you mean "${near}"?`],
    ]);
  });
});

describe('a circumstance tested as what it is not', () => {
  it.each([
    ['when: { polymer: abs }', 'when: { polymer: { atLeast: 1 } }', 'use one of abs, pla'],
    ['when: { polymer: abs }', 'when: { nozzle-mm: abs }', 'write {atLeast: …, below: …} in mm'],
    [
      'when: { polymer: [abs, pla] }',
      'when: { nozzle-mm: [abs, pla] }',
      'write {atLeast: …, below: …} in mm',
    ],
  ])('%s → %s', (before, after, remedy) =>
    expect(summary(before, after)).toEqual([['bad-test', expect.stringContaining(after), remedy]]),
  );

  it('is fine as what it is', () =>
    expect(summary('when: { polymer: abs }', 'when: { nozzle-mm: { below: 0.4 } }')).toEqual([]));
});

describe('an id used twice', () => {
  it('is told at the second one, with the list it is in', () => {
    const faults = faultsOf(written('- id: spring-slack', '- id: teeth-worn')).filter(
      ({ code }) => code === 'doubled-id',
    );
    expect(faults.map(({ message, pointsAt, remedy }) => [message, pointsAt, remedy])).toEqual([
      ['causes has "teeth-worn" twice', '  - id: teeth-worn', 'rename or remove one of them'],
    ]);
    // The later of the two entries.
    expect(faults[0]?.line).toBeGreaterThan(40);
  });

  it('across causes, mechanisms and observations is told with both lists', () => {
    const faults = faultsOf(written('- id: spring-slack', '- id: gear-slips'));
    expect(faults.filter(({ code }) => code === 'doubled-id').map(({ message }) => message)).toEqual([
      'causes has "gear-slips", which is also among mechanisms',
    ]);
  });

  it('by a remedy and a cause is fine: nothing mixes them up', () =>
    expect(
      faultsOf(written('- id: tighten-spring', '- id: teeth-worn')).map(({ code }) => code),
    ).not.toContain('doubled-id'));
});

describe('links run from cause to observation only', () => {
  it.each([
    ['- { to: gear-slips,', '- { to: spring-slack,'],
    ['- { to: dust-at-gear, strength: { slight: 0.7, heavy: 0.3 },', '- { to: spring-slack, strength: 0.7,'],
    ['- { to: thin-lines,', '- { to: teeth-worn,'],
    ['- { to: thin-lines,', '- { to: gear-slips,'],
  ])('%s → %s is a way back up', (before, after) => {
    const [found, ...others] = faultsOf(written(before, after)).filter(({ code }) => code === 'cycle');
    expect(others).toEqual([]);
    expect(found?.pointsAt).toContain(after);
    expect(found?.remedy).toContain('what can be observed');
  });
});

describe('remedies in a ring', () => {
  const inOrder = (...pairs: readonly [string, string][]) =>
    pairs.reduce(
      (texts, [id, after]) =>
        texts.map(({ file, text }) => ({
          file,
          text: text.replace(`  - id: ${id}\n`, `  - id: ${id}\n    ${after}\n`),
        })),
      HAND_MADE.map((one) => ({ ...one, text: one.text.replace('    after: [tighten-spring]\n', '') })),
    );

  it('are told, each of them, however long the ring is', () => {
    expect(faultsOf(inOrder(['replace-gear', 'after: [replace-gear]'])).map(({ code }) => code)).toEqual([
      'remedies-in-a-ring',
    ]);
    const both = inOrder(
      ['replace-gear', 'after: [tighten-spring]'],
      ['tighten-spring', 'after: [replace-gear]'],
    );
    expect(faultsOf(both).map(({ code, message, pointsAt }) => [code, message, pointsAt])).toEqual([
      [
        'remedies-in-a-ring',
        'remedy "replace-gear" comes after itself',
        expect.stringContaining('after: [tighten-spring]'),
      ],
      [
        'remedies-in-a-ring',
        'remedy "tighten-spring" comes after itself',
        expect.stringContaining('after: [replace-gear]'),
      ],
    ]);
  });

  it('a chain is none', () =>
    expect(faultsOf(inOrder(['replace-gear', 'after: [tighten-spring, tighten-spring]']))).toEqual([]));
});
