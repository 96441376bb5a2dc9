import { describe, expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { guideUse, type KeptCase } from '../../src-core/learning/guide-use.ts';
import type { Ranking } from '../../src-core/session/case-step.ts';
import { overSaidWords } from '../../src-renderer/screens/guide-use/guide-use-words.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const intake = {
  printerId: null,
  spoolId: null,
  openedBy: null,
  conditions: {},
  complaints: [{ observation: 'stringing', value: 'slight' }],
  words: '',
};
const closed = (...causes: ({ cause: string } | { named: string })[]): CaseEvent => ({
  kind: 'closed',
  causes,
  practice: null,
  minutesLost: 5,
  gramsScrapped: 0,
  note: '',
});
const answered: CaseEvent = { kind: 'answered', observation: 'vapour-at-head', value: 'slight' };
const tried = (remedy: string, outcome: 'cured' | 'not-cured'): CaseEvent[] => [
  { kind: 'remedy-chosen', remedy },
  { kind: 'remedy-done' },
  { kind: 'verified', outcome },
];

/** A case of events ten minutes apart, with the candidates that were kept after each (null: none). */
function keptCase(number: number, steps: readonly (readonly [CaseEvent, Ranking | null])[]): KeptCase {
  const all = [[{ kind: 'opened', intake } as CaseEvent, null] as const, ...steps];
  return {
    name: { caseId: String(number).padStart(26, '0'), number },
    log: all.map(([event], index) => ({
      seq: index + 1,
      at: new Date(Date.UTC(2026, 0, 1) + index * 600_000).toISOString(),
      event,
    })),
    rankings: new Map(all.flatMap(([, ranking], index) => (ranking ? [[index + 1, ranking] as const] : []))),
  };
}
const list = (first: number): Ranking => [
  ['wet-filament', first],
  ['heat-creep', 0.9 - first],
];

describe('how the guide did', () => {
  it('says where the confirmed cause stood just before the case was closed', () => {
    const use = guideUse(knowledge, [
      keptCase(1, [
        [answered, list(0.7)],
        [closed({ cause: 'wet-filament' }), list(0.1)],
      ]),
      keptCase(2, [
        [answered, list(0.7)],
        [closed({ cause: 'heat-creep' }), null],
      ]),
      keptCase(3, [
        [answered, list(0.7)],
        [closed({ cause: 'belt-loose' }), null],
      ]),
      // Nothing was kept, and nothing of the guide was confirmed.
      keptCase(4, [[closed({ cause: 'belt-loose' }), null]]),
      keptCase(5, [
        [answered, list(0.7)],
        [closed({ named: 'Mouse in the housing' }), null],
      ]),
    ]);
    expect(use.withOdds).toBe(3);
    expect(use.ranks.filter(({ cases }) => cases > 0)).toEqual([
      { rank: 1, cases: 1 },
      { rank: 2, cases: 1 },
      { rank: null, cases: 1 },
    ]);
    // Clopper and Pearson for 1 of 3.
    expect(use.first).toMatchObject({ count: 1, of: 3 });
    const { low = NaN, high = NaN } = use.first ?? {};
    expect(1 - (1 - low) ** 3).toBeCloseTo(0.025, 9);
    expect((1 - high) ** 3 + 3 * high * (1 - high) ** 2).toBeCloseTo(0.025, 9);
    expect(use.namedByHand).toEqual([
      { label: 'Mouse in the housing', cases: [{ caseId: '5'.padStart(26, '0'), number: 5 }] },
    ]);
  });

  it('counts what came true by how likely it was said to be', () => {
    const cases = Array.from({ length: 10 }, (_, n) =>
      keptCase(n, [
        [answered, list(0.75)],
        [closed({ cause: n < 4 ? 'wet-filament' : 'belt-loose' }), null],
      ]),
    );
    const { calibration } = guideUse(knowledge, cases);
    expect(calibration.map(({ from, to, of, count }) => ({ from, to, of, count }))).toEqual([
      { from: 0.1, to: 0.2, of: 10, count: 0 },
      { from: 0.7, to: 0.8, of: 10, count: 4 },
    ]);
    expect(calibration[1]?.said).toBeCloseTo(0.75, 12);
    // The exact upper limit of 4 in 10 is 73.8 %: 75 % was too much, 15 % for none of ten was not.
    expect(overSaidWords(calibration)).toBe('The guide was too sure where it said 75 %.');
    expect(overSaidWords(calibration.slice(0, 1))).toMatch(/^Nothing here says/);
    const careful = calibration.map((bin) => ({ ...bin, said: 0.3, low: 0.4, high: 0.9 }));
    expect(overSaidWords([...calibration.slice(1), ...careful])).toBe(
      'The guide was too sure where it said 75 %, and too careful where it said 30 % and 30 %.',
    );
  });

  it('names checks that moved nothing, remedies that cured nothing, and the time to a cure', () => {
    const cases = Array.from({ length: 5 }, (_, n) =>
      keptCase(n, [
        [{ kind: 'danger-answered', present: [] }, list(0.5)],
        [answered, list(0.52)],
        [{ kind: 'answered', observation: 'gear-clicks', value: 'absent' }, list(0.6)],
        ...tried('dry-the-spool', 'not-cured').map((event) => [event, null] as const),
        ...tried('clean-nozzle-cold-pull', 'cured').map((event) => [event, null] as const),
        [closed({ cause: 'wet-filament' }), null],
      ]),
    );
    const use = guideUse(knowledge, cases);
    expect(
      use.checks.map(({ observation, answered, moved, neverPays }) => [
        observation,
        answered,
        moved,
        neverPays,
      ]),
    ).toEqual([
      ['vapour-at-head', 5, 0, true],
      ['gear-clicks', 5, 5, false],
    ]);
    expect(use.remedies.map(({ remedy, of, count, neverCures }) => [remedy, of, count, neverCures])).toEqual([
      ['dry-the-spool', 5, 0, true],
      ['clean-nozzle-cold-pull', 5, 5, false],
    ]);
    // Opened, and the ninth entry after it.
    expect(use.cure).toEqual({ cases: 5, medianMinutes: 90, lowMinutes: 90, highMinutes: 90 });
    expect(guideUse(knowledge, cases.slice(0, 2)).remedies.some(({ neverCures }) => neverCures)).toBe(false);
  });

  it('leaves out what was taken back', () => {
    const use = guideUse(knowledge, [
      keptCase(1, [
        [answered, list(0.7)],
        ...tried('dry-the-spool', 'not-cured').map((event) => [event, null] as const),
        [{ kind: 'undone' }, null],
        [closed({ cause: 'wet-filament' }), null],
      ]),
    ]);
    expect(use.remedies).toEqual([]);
  });

  it('is read from what was kept, without any reasoning', async () => {
    let asked = 0;
    const { ask, pass } = await programInMemory({
      around: (reasoner) => ({
        ...reasoner,
        run: (...work) => {
          asked++;
          return reasoner.run(...work);
        },
      }),
    });
    const { caseId } = await ask('case:open', { complaints: intake.complaints });
    const events: CaseEvent[] = [
      { kind: 'danger-answered', present: [] },
      answered,
      ...tried('dry-the-spool', 'cured'),
      closed({ cause: 'wet-filament' }),
    ];
    for (const [index, event] of events.entries()) {
      pass(5);
      await ask('case:send', { caseId, revision: index + 1, event });
    }
    asked = 0;
    const use = await ask('lead:guide-use', {});
    expect(asked).toBe(0);
    expect(use).toMatchObject({ cases: 1, isMore: false, isDemo: false, withOdds: 1 });
    expect(use.cure?.medianMinutes).toBe(25);
    expect(use.checks.map(({ observation }) => observation)).toEqual(['vapour-at-head']);
    expect(use.remedies).toMatchObject([{ remedy: 'dry-the-spool', of: 1, count: 1 }]);
  });
});
