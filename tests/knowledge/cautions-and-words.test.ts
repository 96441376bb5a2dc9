import { describe, expect, it } from 'vitest';
import { HAZARDS } from '../../src-core/knowledge/schema.ts';
import { HAND_MADE, faultsOf, written } from './hand-made-guide.ts';

const found = (before: string, after: string) =>
  faultsOf(written(before, after)).map(({ code, message, pointsAt }) => [code, message, pointsAt?.trim()]);

describe('a caution for every hazard of a remedy', () => {
  it('is missed where no step carries one, at the line that names the hazard', () =>
    expect(found('cautions: [hot-parts] }', 'cautions: [] }')).toEqual([
      [
        'missing-caution',
        'remedy "replace-gear" involves heat and no step carries a caution for it',
        'involves: [heat]',
      ],
    ]));

  it('counts on whichever step it stands, and has to be for that very hazard', () => {
    const more = '- { do: Take it off. }\n      - { do: Put it on., cautions: [hot-parts] }';
    expect(found('- { do: Take it off., cautions: [hot-parts] }', more)).toEqual([]);
    for (const hazard of HAZARDS.filter((one) => one !== 'heat')) {
      const [fault, ...others] = found('involves: [heat]', `involves: [heat, ${hazard}]`);
      expect([fault?.[0], others]).toEqual(['missing-caution', []]);
      expect(fault?.[1]).toContain(`involves ${hazard} `);
    }
  });

  it('is asked for where a step’s words give the hazard away, at that step', () =>
    expect(
      found('- { do: Turn the screw. }', '- { do: Turn the screw. }\n      - { do: Trim it with a knife. }'),
    ).toEqual([
      [
        'undeclared-hazard',
        'a step of remedy "tighten-spring" says "knife"',
        '- { do: Trim it with a knife. }',
      ],
    ]));

  it('is asked for once a hazard, however often the words say it', () =>
    expect(
      found('- { do: Turn the screw. }', '- { do: With a knife or a blade or scissors. }').map(
        ([code]) => code,
      ),
    ).toEqual(['undeclared-hazard']));
});

describe('a caution for every check that needs one', () => {
  const THIN =
    'check: { how: Look., minutes: 1, machine: any, countsAsPresent: Gaps., nullRulesOut: Little. }';
  const check = (changed: string) => found(THIN, changed);

  it.each([
    ['machine: any', 'machine: hot', 'machine that is hot and carries no caution for heat'],
    ['machine: any', 'machine: printing', 'carries no caution for moving-parts or heat'],
    ['machine: any', 'machine: opened', 'carries no caution for mains or moving-parts or heat'],
    ['minutes: 1,', 'minutes: 1, destroysPart: true,', 'breaks a part and carries no caution for sharp'],
    ['how: Look.', 'how: Wipe it with acetone.', 'says "acetone" and carries no caution for solvent'],
  ])('%s → %s', (before, after, says) => {
    const faults = check(THIN.replace(before, after));
    expect(faults[0]?.[0]).toBe('missing-caution');
    expect(faults[0]?.[1]).toMatch(new RegExp(`^the check of "thin-lines" .*${says}$`));
    expect(faults[0]?.[2]).toContain(after);
  });

  it.each(['off', 'cold', 'motors-off', 'part-in-hand', 'any'])('"%s" asks for none', (state) =>
    expect(check(THIN.replace('machine: any', `machine: ${state}`))).toEqual([]),
  );

  it('is content with any one that fits the state of the machine', () =>
    expect(check(THIN.replace('machine: any', 'machine: printing, cautions: [hot-parts]'))).toEqual([]));
});

describe('words of the trade', () => {
  const withWords = (...lines: readonly string[]) =>
    faultsOf([
      ...HAND_MADE,
      {
        file: 'words.yaml',
        text: ['topic: Words', 'words:', ...lines.map((line) => `  ${line}`), ''].join('\n'),
      },
    ]).map(({ code, message, remedy, pointsAt }) => [code, message, remedy, pointsAt?.trim()]);

  it('that name circumstances and observations of the guide are fine', () =>
    expect(
      withWords(
        'same: [[tangle, knot], [job, print run]]',
        'values: [{ condition: polymer, value: abs, words: [black stuff] }]',
        'numbers: [{ condition: nozzle-mm, near: [bore] }]',
        'ruledOut: [{ words: [not thin], observation: thin-lines }]',
      ),
    ).toEqual([]));

  it('are told where they name what is not there, with the nearest', () => {
    expect(
      withWords(
        'values:',
        '  - { condition: polymr, value: abs, words: [a] }',
        '  - { condition: polymer, value: abz, words: [a] }',
        '  - { condition: nozzle-mm, value: abs, words: [a] }',
        'numbers:',
        '  - { condition: polymer, near: [a] }',
        'ruledOut:',
        '  - { words: [a], observation: thin-line }',
      ).map(([code, message, remedy, at]) => [code, String(message).split('"')[1], remedy, at]),
    ).toEqual([
      ['dangling-id', 'polymr', 'did you mean "polymer"?', '- { condition: polymr, value: abs, words: [a] }'],
      ['dangling-id', 'abz', 'did you mean "abs"?', '- { condition: polymer, value: abz, words: [a] }'],
      [
        'dangling-id',
        'abs',
        'name one that the guide has',
        '- { condition: nozzle-mm, value: abs, words: [a] }',
      ],
      ['dangling-id', 'polymer', expect.any(String), '- { condition: polymer, near: [a] }'],
      ['dangling-id', 'thin-line', 'did you mean "thin-lines"?', '- { words: [a], observation: thin-line }'],
    ]);
  });

  it('stand in one row only, by their root; twice in the same row is no harm', () => {
    expect(withWords('same: [[tangle, tangled, knot]]')).toEqual([]);
    const [fault, ...others] = withWords('same:', '  - [tangle, knot]', '  - [mess, tangles]');
    expect(others).toEqual([]);
    expect(fault).toEqual([
      'word-in-two-rows',
      '"tangles" stands in the row of "tangle" and in that of "mess"',
      'keep it in one of them',
      '- [mess, tangles]',
    ]);
  });
});

describe('what a guide has once', () => {
  const whole = (more: string) => [
    ...HAND_MADE,
    {
      file: 'materials.yaml',
      text: `topic: Materials\nmaterials: [{ id: abs, label: ABS, kind: polymer, summary: A., properties: {} }]\n${more}`,
    },
  ];

  it('is asked for of a whole guide, each part by name, and of no unfinished one', () => {
    expect(faultsOf(HAND_MADE)).toEqual([]);
    const parts = faultsOf(whole('')).map(({ code, message }) => [code, message.split('"')[1]]);
    expect(parts).toEqual(
      ['makeSafe', 'melting', 'serviceHeat', 'machineStates', 'jobLimits'].map((name) => [
        'missing-part',
        name,
      ]),
    );
  });

  it('is told at the second file that has it', () => {
    const safe = 'makeSafe: [{ do: Pull the plug., source: estimate }]\n';
    const faults = faultsOf([...whole(safe), { file: 'again.yaml', text: `topic: Again\n${safe}` }]);
    expect(
      faults
        .filter(({ code }) => code === 'doubled-part')
        .map(({ file, line, message }) => [file, line, message]),
    ).toEqual([['again.yaml', 2, '"makeSafe" stands in materials.yaml already']]);
  });
});
