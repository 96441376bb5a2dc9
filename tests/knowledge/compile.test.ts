import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../src-core/knowledge/cautions.ts';
import { compileKnowledge, levelDistribution } from '../../src-core/knowledge/compile.ts';
import { knownToFail, knownToHold } from '../../src-core/knowledge/conditions.ts';
import { cappedLeak } from '../../src-core/knowledge/direct-leak.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';

const GRADES = ['none', 'slight', 'heavy', 'severe'].map((id) => ({ id, label: id }));
const graded = observation('dust', 0.02, 1, {
  grades: GRADES,
  leak: { strength: { slight: 0.02 }, source: 'estimate' },
});
const measured = observation('grip', 0.02, 1, {
  kind: 'measurement',
  measure: {
    quantity: 'Force',
    unit: 'N',
    min: 0,
    max: 100,
    bands: [
      { id: 'normal', label: 'Normal', from: 20, below: 60 },
      { id: 'low', label: 'Low', below: 20 },
      { id: 'high', label: 'High', from: 60 },
    ],
  },
  leak: { strength: { low: 0.02 }, source: 'estimate' },
});

describe('a strength as chances of what is seen', () => {
  it('of grades says "at least so much": slight 0.7 and heavy 0.3 leave 0.4 for just slight', () =>
    expect(
      levelDistribution(graded, { slight: 0.7, heavy: 0.3, severe: 0.1 }).map((p) => +p.toFixed(12)),
    ).toEqual([0.3, 0.4, 0.2, 0.1]));

  it('of bands says so often each, as they exclude each other', () =>
    expect(levelDistribution(measured, { low: 0.7, high: 0.2 }).map((p) => +p.toFixed(12))).toEqual([
      0.1, 0.7, 0.2,
    ]));

  it('of a word is the figure of the scale', () =>
    // Renooij & Witteman (1999): probable is 85 %, fifty-fifty 50 %.
    expect([
      levelDistribution(observation('a', 0.1, 1), 'usually')[1],
      levelDistribution(observation('a', 0.1, 1), 'about half')[1],
    ]).toEqual([0.85, 0.5]));

  it('adds up to one for falling grades and for bands below one, and none is negative', () => {
    const chance = fc.double({ min: 0.001, max: 0.999, noNaN: true });
    fc.assert(
      fc.property(fc.array(chance, { minLength: 3, maxLength: 3 }), (some) => {
        const [slight = 0, heavy = 0, severe = 0] = [...some].sort((a, b) => b - a);
        const share = (slight + heavy + severe) * 1.001;
        for (const levels of [
          levelDistribution(graded, { slight, heavy, severe }),
          levelDistribution(measured, { low: slight / share, high: heavy / share }),
        ]) {
          expect(levels.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
          expect(Math.min(...levels)).toBeGreaterThanOrEqual(-1e-15);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('of one figure for several grades is refused', () =>
    expect(() => levelDistribution(graded, 0.5)).toThrow(/dust has 4 levels/));
});

describe('whether a rule applies', () => {
  const range = (atLeast?: number, below?: number) => ({
    'nozzle-mm': { ...(atLeast !== undefined && { atLeast }), ...(below !== undefined && { below }) },
  });

  it.each([
    [range(0.4, 0.6), 0.4, true],
    [range(0.4, 0.6), 0.5999, true],
    [range(0.4, 0.6), 0.6, false],
    [range(0.4, 0.6), 0.3999, false],
    [range(0.4), 100, true],
    [range(undefined, 0.6), -100, true],
    [range(0.4, 0.6), 'wide', false],
  ] as const)('%j at %s: %s, from "at least" included to "below" excluded', (when, known, holds) => {
    expect(knownToHold(when, { 'nozzle-mm': known })).toBe(holds);
    expect(knownToFail(when, { 'nozzle-mm': known })).toBe(!holds);
  });

  it.each([
    ['abs', 'abs', true],
    ['abs', 'abs-gf', false],
    [['abs', 'pla'], 'pla', true],
    [['abs', 'pla'], 'petg', false],
    [['1'], 1, false],
  ])('polymer %j at %s: %s', (test, known, holds) => {
    expect(knownToHold({ polymer: test }, { polymer: known })).toBe(holds);
    expect(knownToFail({ polymer: test }, { polymer: known })).toBe(!holds);
  });

  it('is left open by what nobody said: it neither holds nor fails', () => {
    const when = { polymer: 'abs', 'nozzle-mm': { atLeast: 0.4 } };
    expect([knownToHold(when, { polymer: 'abs' }), knownToFail(when, { polymer: 'abs' })]).toEqual([
      false,
      false,
    ]);
    // One clause that is known to be false decides.
    expect([knownToHold(when, { polymer: 'pla' }), knownToFail(when, { polymer: 'pla' })]).toEqual([
      false,
      true,
    ]);
    expect([knownToHold({}, {}), knownToFail({}, {})]).toEqual([true, false]);
  });
});

describe('what circumstances make of the odds of a cause', () => {
  const rule = (timesOdds: number, when: Record<string, string>, unlessKnown?: string) => ({
    when,
    timesOdds,
    because: `times ${timesOdds}`,
    source: 'estimate',
    ...(unlessKnown !== undefined && { unlessKnown }),
  });
  const guide = smallGuide({
    observations: [observation('pops', 0.05, 1)],
    causes: [
      cause(
        'wet',
        { pops: 0.9 },
        {
          prior: { perHundredCases: 20, source: 'estimate' },
          movedBy: [
            rule(3, { storage: 'open' }, 'humidity'),
            rule(4, { polymer: 'nylon' }),
            rule(0.5, { humidity: 'low' }),
          ],
        },
      ),
      cause('worn', { pops: 0.1 }, { prior: { perHundredCases: 50, source: 'estimate' } }),
    ],
  });
  const [ofWet, ofWorn] = [0, 1].map(
    (index) => (known: Record<string, string>) => guide.priorsUnder(known).priors[index] ?? NaN,
  );
  const odds = (p = NaN) => p / (1 - p);

  it('multiplies them, rule after rule, each with its reason', () => {
    expect(ofWet?.({})).toBeCloseTo(0.2, 15);
    expect(odds(ofWet?.({ storage: 'open' }))).toBeCloseTo(0.25 * 3, 12);
    expect(odds(ofWet?.({ storage: 'open', polymer: 'nylon' }))).toBeCloseTo(0.25 * 3 * 4, 12);
    expect(
      guide
        .priorsUnder({ storage: 'open', polymer: 'nylon' })
        .shifts.map(({ cause: id, because }) => [id, because]),
    ).toEqual([
      ['wet', 'times 3'],
      ['wet', 'times 4'],
    ]);
    expect(guide.priorsUnder({ storage: 'dry-box' }).shifts).toEqual([]);
  });

  it('leaves a rule out while a better informed one is known, whatever that one says', () => {
    expect(odds(ofWet?.({ storage: 'open', humidity: 'low' }))).toBeCloseTo(0.25 * 0.5, 12);
    expect(odds(ofWet?.({ storage: 'open', humidity: 'high' }))).toBeCloseTo(0.25, 12);
  });

  it('leaves other causes as they are', () =>
    expect(ofWorn?.({ storage: 'open', polymer: 'nylon', humidity: 'low' })).toBe(0.5));
});

describe('how often a thing is met with nothing behind it', () => {
  it('is at most half of what causes raise, where it is seldom and seen on the machine itself', () => {
    // By hand: a cause of 1 in 100 that shows it 0.9 of the time raises 0.009; half of it is 0.0045.
    const guide = smallGuide({
      observations: [observation('off-table', 0.02, 1, { complaint: false })],
      causes: [cause('broken', { 'off-table': 0.9 })],
    });
    expect(guide.graph.observations[0]?.leak[1]).toBeCloseTo(0.0045, 12);
    expect(guide.graph.observations[0]?.leak[0]).toBeCloseTo(0.9955, 12);
  });

  it('counts what mechanisms bring, each with what drives it', () => {
    const mechanism = {
      id: 'slip',
      label: 'Slip',
      formerly: [],
      physics: 'It slips.',
      leak: { strength: 0.003, source: 'estimate' as const },
      shows: [{ to: 'dust-seen', strength: 0.5, source: 'estimate' as const }],
    };
    const guide = smallGuide({
      observations: [observation('dust-seen', 0.02, 1, { complaint: false })],
      mechanisms: [mechanism],
      causes: [cause('worn', {}, { drives: [{ to: 'slip', strength: 0.8, source: 'estimate' }] })],
    });
    // By hand: slip goes 0.003 + 0.01 x 0.8 = 0.011 of the time and shows it half of that; half of it again.
    expect(guide.graph.observations[0]?.leak[1]).toBeCloseTo(0.011 * 0.5 * 0.5, 12);
  });

  it.each([
    ['stands where it is met often', [0.9, 0.1], [0.99, 0.01], [0.9, 0.1]],
    ['is held at the boundary of "often" still', [0.97, 0.03], [0.99, 0.01], [0.995, 0.005]],
    ['stands for a level that no cause raises', [0.97, 0.01, 0.02], [0.99, 0.01, 0], [0.975, 0.005, 0.02]],
    ['stands where it is lower already', [0.999, 0.001], [0.9, 0.1], [0.999, 0.001]],
  ])('%s', (_, leak, raised, expected) => {
    cappedLeak(leak, raised).forEach((p, level) => expect(p).toBeCloseTo(expected[level] ?? NaN, 12));
  });

  it('stands as written for a complaint: people complain for no reason, too', () => {
    const guide = smallGuide({
      observations: [observation('ugly', 0.02, 1, { complaint: true })],
      causes: [cause('broken', { ugly: 0.9 })],
    });
    expect(guide.graph.observations[0]?.leak[1]).toBe(0.02);
  });
});

describe('what only one file holds', () => {
  it('is asked for by name where no file has it', () => {
    const guide = compileKnowledge([{ topic: 'Empty' }], 'v');
    expect(() => guide.melting).toThrow('no file of the guide has "melting"');
    expect(() => guide.makeSafe).toThrow('"makeSafe"');
    expect(guide.words.same).toEqual([]);
    expect(() => guide.levelsOf('nothing')).toThrow('unknown id "nothing"');
  });

  it('is found in whichever file has it', () => {
    const makeSafe = [{ do: 'Pull the plug.', source: 'common practice' }];
    expect(compileKnowledge([{ topic: 'A' }, { topic: 'B', makeSafe }], 'v').makeSafe).toEqual(makeSafe);
  });
});

it('cautions of a step keep their order and pass over what the guide does not know', () => {
  const caution = (id: string) => ({
    id,
    label: id,
    hazards: ['heat' as const],
    text: `Mind ${id}.`,
    source: 'estimate',
  });
  const guide = smallGuide({ cautions: [caution('hot'), caution('sharp')] });
  expect(cautionsOf(guide, ['sharp', 'gone', 'hot']).map(({ id, text }) => [id, text])).toEqual([
    ['sharp', 'Mind sharp.'],
    ['hot', 'Mind hot.'],
  ]);
});
