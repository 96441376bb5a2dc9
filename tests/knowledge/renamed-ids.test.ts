import { describe, expect, it } from 'vitest';
import { today } from '../../src-core/knowledge/former-ids.ts';
import { nearestId } from '../../src-core/knowledge/nearest-id.ts';
import { checkShippedIds, idsNotYetKept, withTodaysIds } from '../../src-core/knowledge/shipped-ids.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';

/** A guide whose condition and one of its values had other names, and whose observation had two. */
const guide = smallGuide({
  conditions: [
    {
      id: 'polymer',
      label: 'Polymer',
      ask: '?',
      alsoCalled: [],
      formerly: ['material'],
      values: [
        { id: 'abs', label: 'ABS', alsoCalled: [], formerly: ['abs-plain'] },
        { id: 'pla', label: 'PLA', alsoCalled: [], formerly: [] },
      ],
    },
  ],
  observations: [observation('pops', 0.05, 1, { formerly: ['crackles', 'bangs'] })],
  causes: [cause('wet', { pops: 0.9 })],
});
const kept = (...lines: readonly string[]) =>
  checkShippedIds(lines.join('\n'), guide).map(({ line, message }) => [line, message]);

describe('an id that has shipped', () => {
  it.each([
    'observation pops',
    'observation crackles',
    'observation bangs',
    'cause wet',
    'condition material',
    'value polymer/abs',
    'value polymer/abs-plain',
    // A value of a condition that was itself renamed, by its old name and its new one.
    'value material/pla',
    'value material/abs-plain',
  ])('"%s" still says what it meant', (line) => expect(kept(line)).toEqual([]));

  it.each([
    ['observation hisses', 'the observation "hisses"'],
    ['value polymer/petg', 'the value "polymer/petg"'],
    ['value material/petg', 'the value "material/petg"'],
    ['value filler/glass', 'the value "filler/glass"'],
    // Of another kind it is another id.
    ['cause pops', 'the cause "pops"'],
    ['remedy crackles', 'the remedy "crackles"'],
    ['condition polymer/abs', 'the condition "polymer/abs"'],
  ])('"%s" is gone without a word, and its line is told', (line, says) => {
    const found = kept('# heading', '', line, 'observation pops');
    expect(found).toHaveLength(1);
    expect(found[0]?.[0]).toBe(3);
    expect(found[0]?.[1]).toContain(says);
  });

  it('is kept for ever, once, whatever is added, and reading the list back finds nothing to add', () => {
    const text = withTodaysIds('# old heading\nobservation hisses\nobservation pops\n', guide);
    const lines = text.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
    expect(lines).toEqual([...new Set(lines)].sort());
    expect(lines).toContain('observation hisses');
    expect(lines).toContain('value polymer/pla');
    expect(idsNotYetKept(text, guide)).toEqual([]);
    expect(withTodaysIds(text, guide)).toBe(text);
    expect(idsNotYetKept('observation pops', guide)).not.toContain('observation pops');
    expect(idsNotYetKept('observation pops', guide)).toContain('cause wet');
  });

  it('reads as what it is called today, and one in use as itself', () =>
    expect(['crackles', 'pops', 'hisses'].map((id) => today(guide.former.observations, id))).toEqual([
      'pops',
      'pops',
      'hisses',
    ]));
});

describe('the nearest name', () => {
  it.each([
    ['wet-filamnt', 'wet-filament'],
    ['filament-wet-very', undefined],
    ['abz', 'abs'],
  ])('of %j is %j', (wanted, near) =>
    expect(nearestId(wanted, ['wet-filament', 'abs', 'nozzle-worn'])).toBe(near),
  );

  it('of two equally near is the first, and of none none', () => {
    expect(nearestId('ab', ['abs', 'abc'])).toBe('abs');
    expect(nearestId('abs', [])).toBeUndefined();
  });
});
