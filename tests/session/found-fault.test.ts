import { describe, expect, it } from 'vitest';
import { emptyContext } from '../../src-core/session/case-context.ts';
import { caseProblem } from '../../src-core/session/case-problem.ts';
import { foundFault } from '../../src-core/session/found-fault.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';

const seen = (id: string, kind: 'sign' | 'pattern' | 'comparison' | 'hand-test', complaint = false) =>
  observation(id, 0.02, 1, { kind, complaint });

const guide = smallGuide({
  observations: [
    seen('thin-lines', 'sign', true),
    seen('belt-frayed', 'sign'),
    seen('belt-slack-felt', 'hand-test'),
    seen('one-side', 'pattern'),
    seen('other-belt-good', 'comparison'),
    seen('ugly', 'sign', true),
  ],
  causes: [
    cause('belt-worn', {
      'thin-lines': 0.5,
      'belt-frayed': 0.8,
      'one-side': 0.8,
      'other-belt-good': 0.8,
      ugly: 0.8,
      'belt-slack-felt': 0.3,
    }),
    cause('belt-slack', { 'thin-lines': 0.5, 'belt-slack-felt': 0.4 }),
  ],
  machineStates: { preparation: {}, cooling: { value: 20, source: 'estimate' } },
});

/** What is found broken with these findings, where candidates stand at these chances. */
function found(
  findings: Record<string, string>,
  chances: readonly (readonly [string, number])[],
): string | null {
  const context = {
    ...emptyContext,
    intake: {
      printerId: null,
      spoolId: null,
      openedBy: null,
      conditions: {},
      complaints: [{ observation: 'thin-lines', value: 'present' }],
      words: '',
    },
    findings: { 'thin-lines': 'present', ...findings },
  };
  return foundFault(
    guide,
    caseProblem(guide, context),
    chances.map(([id, probability]) => ({ cause: id, probability })),
  );
}
const AHEAD = [
  ['belt-worn', 0.5],
  ['belt-slack', 0.2],
] as const;

describe('a fault found on the machine', () => {
  it.each([
    ['seen', { 'belt-frayed': 'present' }, 'belt-worn'],
    ['probably seen', { 'belt-frayed': 'probably' }, 'belt-worn'],
    ['looked for and not there', { 'belt-frayed': 'absent' }, null],
    ['probably not there', { 'belt-frayed': 'probably-not' }, null],
    // What is told of the complaint, compared or complained of is no look at the machine itself.
    ['told', { 'one-side': 'present' }, null],
    ['compared', { 'other-belt-good': 'present' }, null],
    ['complained of', { ugly: 'present' }, null],
    // Shown by it too seldom to be taken for it.
    ['seen of something else', { 'belt-slack-felt': 'present' }, null],
    ['nothing but the complaint', {}, null],
  ])('%s', (_, findings, fault) => expect(found(findings, AHEAD)).toBe(fault));

  it.each([
    [
      [
        ['belt-worn', 0.2],
        ['belt-slack', 0.1],
      ],
      'belt-worn',
    ],
    [
      [
        ['belt-worn', 0.19],
        ['belt-slack', 0.1],
      ],
      null,
    ],
    [
      [
        ['belt-worn', 0.4],
        ['belt-slack', 0.2],
      ],
      'belt-worn',
    ],
    // Not clearly ahead.
    [
      [
        ['belt-worn', 0.4],
        ['belt-slack', 0.21],
      ],
      null,
    ],
    [[['belt-worn', 0.9]], 'belt-worn'],
    [[], null],
    // Another stands first.
    [
      [
        ['belt-slack', 0.6],
        ['belt-worn', 0.2],
      ],
      null,
    ],
  ] as const)('with candidates at %j: %s', (chances, fault) =>
    expect(found({ 'belt-frayed': 'present' }, chances)).toBe(fault),
  );

  it('is not taken for the one while a rival of some weight is shown as directly', () => {
    const both = { 'belt-frayed': 'present', 'belt-slack-felt': 'present' };
    expect(
      found(both, [
        ['belt-worn', 0.6],
        ['belt-slack', 0.1],
      ]),
    ).toBeNull();
    // A rival of no weight holds nothing up.
    expect(
      found(both, [
        ['belt-worn', 0.6],
        ['belt-slack', 0.09],
      ]),
    ).toBe('belt-worn');
  });
});
