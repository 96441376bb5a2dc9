import { describe, expect, it } from 'vitest';
import { emptyContext } from '../../src-core/session/case-context.ts';
import { caseProblem } from '../../src-core/session/case-problem.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';

const seen = (id: string, more: Parameters<typeof observation>[3] = {}) =>
  observation(id, 0.02, 1, { complaint: false, ...more });
const statement = (id: string) =>
  seen(id, { kind: 'pattern', group: 'course', settles: [`${id}-not-asked`] });
const facetTable = (id: string) => ({
  id,
  given: { 'sits.spool': 0.8 },
  otherwise: 0.05,
  notStated: 0.2,
  source: 'estimate',
});

const guide = smallGuide({
  observations: [
    seen('alarm', { settlesWhenAbsent: ['alarm-of-sensor'] }),
    seen('alarm-of-sensor'),
    seen('belt-note', {
      settlesWhenAbsent: ['belt-dull'],
      measure: {
        quantity: 'Note',
        unit: '%',
        min: -90,
        max: 90,
        bands: [
          { id: 'right', label: 'Right', from: -15, below: 15 },
          { id: 'low', label: 'Low', below: -15 },
          { id: 'high', label: 'High', from: 15 },
        ],
      },
      leak: { strength: { low: 0.02, high: 0.02 }, source: 'estimate' },
    }),
    seen('belt-dull'),
    seen('all-wrong', { unspecific: true, complaint: true }),
    seen('belt-note-wrong', { complaint: true }),
    seen('by-hand', { onlyAbout: ['all-wrong'] }),
    seen('belt-frayed', { seenInTrying: ['tighten-belt'] }),
    seen('brim-up', { onlyAbout: ['alarm'] }),
    statement('first-minute'),
    seen('first-minute-not-asked'),
    statement('each-job'),
    seen('each-job-not-asked'),
  ],
  facetTables: [facetTable('first-minute'), facetTable('each-job')],
  causes: [cause('wet', { alarm: 0.5, 'belt-dull': 0.2 }, { facets: { sits: ['spool'] } })],
  machineStates: { preparation: {}, cooling: { value: 30, source: 'estimate' } },
});

const asks = (id: string, findings: Record<string, string | number>) =>
  caseProblem(guide, { ...emptyContext, findings }).checks.some((check) => check.id === id);

it('a check about one kind of trouble is asked where that trouble is, surely or likely, and nowhere else', () => {
  for (const [value, isOpen] of [
    ['absent', false],
    ['probably-not', false],
    ['probably', true],
    ['present', true],
  ] as const)
    expect(asks('brim-up', { alarm: value }), value).toBe(isOpen);
  expect(asks('brim-up', { 'belt-note': -30 })).toBe(false);
  expect(asks('belt-dull', { alarm: 'present' })).toBe(true);
});

it('a check about what was said is asked also where that gave way to a more telling complaint', () => {
  const complaints = ['all-wrong', 'belt-note-wrong'].map((id) => ({ observation: id, value: 'present' }));
  const intake = { printerId: null, spoolId: null, openedBy: null, conditions: {}, complaints, words: '' };
  const findings = { 'all-wrong': 'present', 'belt-note-wrong': 'present' };
  const { checks, evidence } = caseProblem(guide, { ...emptyContext, intake, findings });
  expect(checks.map(({ id }) => id)).toContain('by-hand');
  expect(evidence.map(({ observation }) => observation)).toEqual([
    guide.observationIndex.get('belt-note-wrong'),
  ]);
});

describe('a check that is answered by what was said', () => {
  it('is left out where a finding is absent for sure, not where that is only likely', () => {
    for (const [value, isOpen] of [
      ['absent', false],
      ['probably-not', true],
      ['probably', true],
      ['present', true],
    ] as const)
      expect(asks('alarm-of-sensor', { alarm: value }), value).toBe(isOpen);
  });

  it('is left out once a remedy was tried in which it is seen', () => {
    const open = (remedy: string, triedBefore = 0) =>
      caseProblem(guide, {
        ...emptyContext,
        tried: [{ remedy, outcome: 'not-cured' }],
        triedBefore,
      }).checks.map(({ id }) => id);
    expect(open('tighten-belt')).not.toContain('belt-frayed');
    expect(open('wash-plate')).toContain('belt-frayed');
    // A case that is taken up again: it may have come back.
    expect(open('tighten-belt', 1)).toContain('belt-frayed');
  });

  it('is left out where the value measured is the normal one, or a range within it', () => {
    for (const [value, isOpen] of [
      [3, false],
      ['-5..10', false],
      ['5..40', true],
      [-30, true],
      ['low', true],
    ] as const)
      expect(asks('belt-dull', { 'belt-note': value }), String(value)).toBe(isOpen);
  });

  it('is left out also where two statements of one kind count for less together', () => {
    const both = { 'first-minute': 'present', 'each-job': 'present' };
    expect(asks('first-minute-not-asked', both)).toBe(false);
    expect(asks('each-job-not-asked', both)).toBe(false);
    expect(asks('first-minute-not-asked', { ...both, 'first-minute': 'probably' })).toBe(true);
  });
});
