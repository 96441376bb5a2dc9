import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  faultOfCondition,
  faultOfFinding,
  levelOfFinding,
  likelihoodOfFinding,
} from '../../src-core/session/finding-level.ts';
import { BANDS, guide } from './guide-of-all-scales.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

describe('the band that a measured number falls in', () => {
  it.each([
    [19.999, 'low'],
    [20, 'right'],
    [59.999, 'right'],
    [60, 'high'],
    [0, 'low'],
    [100, 'high'],
  ])('%s N is %s: a limit belongs to the band above it', (newton, band) =>
    expect(guide.levelsOf('grip')[levelOfFinding(guide, 'grip', newton)]).toBe(band),
  );

  it('is one and only one for every number of the range', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (newton) => {
        const { from = -Infinity, below = Infinity } = BANDS[levelOfFinding(guide, 'grip', newton)] ?? {};
        expect(newton).toBeGreaterThanOrEqual(from);
        expect(newton).toBeLessThan(below);
        expect(faultOfFinding(guide, 'grip', newton)).toBeNull();
      }),
    );
  });

  it.each([0, 100])('%s N, an end of the meter, may be entered', (newton) =>
    expect(faultOfFinding(guide, 'grip', newton)).toBeNull(),
  );

  it.each([-0.001, 100.001, Infinity, NaN])('%s N may not', (newton) =>
    expect(inEnglish(faultOfFinding(guide, 'grip', newton) ?? [])).toContain(
      'it must lie between 0 and 100 N',
    ),
  );
});

describe('a measured range', () => {
  it('counts for each band as much of it as lies there', () =>
    expect(likelihoodOfFinding(guide, 'grip', '10..30')).toEqual([0.5, 0.5, 0]));

  it('of no width is its one value', () => {
    expect(likelihoodOfFinding(guide, 'grip', '60..60')).toEqual([0, 0, 1]);
    expect(likelihoodOfFinding(guide, 'grip', '0..0')).toEqual([0, 1, 0]);
  });

  it('counts as all it can be: shares add up to one, and none lies outside', () => {
    const newton = fc.integer({ min: 0, max: 1000 }).map((n) => n / 10);
    fc.assert(
      fc.property(newton, newton, (a, b) => {
        const [low, high] = a < b ? [a, b] : [b, a];
        const value = `${low}..${high}`;
        const shares = likelihoodOfFinding(guide, 'grip', value) ?? [];
        expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
        BANDS.forEach(({ from = -Infinity, below = Infinity }, band) => {
          if (high < from || low >= below) expect(shares[band]).toBe(0);
        });
        expect(faultOfFinding(guide, 'grip', value)).toBeNull();
        // It is shown as the band of its middle, and that is one that it reaches into.
        const middle = (low + high) / 2;
        const { from = -Infinity, below = Infinity } = BANDS[levelOfFinding(guide, 'grip', value)] ?? {};
        expect(middle >= from && middle < below).toBe(true);
      }),
    );
  });

  it('inside one band says what the number says', () => {
    const level = levelOfFinding(guide, 'grip', 30);
    expect(likelihoodOfFinding(guide, 'grip', '25..35')?.map((share) => share > 0)).toEqual(
      [0, 1, 2].map((band) => band === level),
    );
  });

  it.each([
    ['60..20', 'write the lower number first'],
    ['-5..20', 'must lie between 0 and 100'],
    ['90..101', 'must lie between 0 and 100'],
  ])('%s is refused', (value, says) =>
    expect(inEnglish(faultOfFinding(guide, 'grip', value) ?? [])).toContain(says),
  );

  it('is no answer to what is not measured, nor is a number', () => {
    expect(inEnglish(faultOfFinding(guide, 'pops', '1..2') ?? [])).toContain(
      'takes one of these, not a range: absent and present',
    );
    expect(inEnglish(faultOfFinding(guide, 'strings', 3) ?? [])).toContain(
      'takes one of these, not a number: none, slight and heavy',
    );
  });
});

describe('a circumstance that cannot be', () => {
  it.each([
    ['nozzle-mm', 0.1, null],
    ['nozzle-mm', 2, null],
    ['nozzle-mm', 2.0001, 'it must lie between 0.1 and 2 mm'],
    ['nozzle-mm', NaN, 'it must lie between'],
    ['nozzle-mm', '0.4', 'takes a number of mm, not "0.4"'],
    ['last-change', 'spool', null],
    ['last-change', 'spol', 'did you mean "spool"?'],
    ['last-change', 7, 'use one of these: spool and nozzle'],
    ['nozle-mm', 0.4, 'did you mean "nozzle-mm"?'],
  ])('%s %s: %s', (id, value, says) => {
    const fault = faultOfCondition(guide, id, value);
    if (says === null) expect(fault).toBeNull();
    else expect(inEnglish(fault ?? [])).toContain(says);
  });
});
