import { describe, expect, it } from 'vitest';
import { contextOfCase } from '../../src-main/command/diagnose.ts';
import type { CaseFile } from '../../src-main/command/case-file.ts';
import { caseProblem } from '../../src-core/session/case-problem.ts';
import { reasonAbout } from '../../src-core/session/reason-about.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();

function reasoned(findings: CaseFile['findings'], conditions: CaseFile['conditions'] = {}) {
  return reasonAbout(knowledge, contextOfCase(knowledge, { conditions, findings, tried: [] }));
}

// Common practice: whoever has seen by trying that a change cures does not ask on.
describe('a comparison that has shown the cure makes it next', () => {
  it.each([
    ['stringing', 'cooler-nozzle-better', 'lower-nozzle-10'],
    ['weak-layer-bonds', 'hotter-nozzle-better', 'raise-nozzle-10'],
    ['repeated-nozzle-clog', 'open-door-clean', 'vent-the-chamber'],
    ['weak-layer-bonds', 'less-fan-bonds-better', 'reduce-part-fan'],
    ['layer-shift', 'quiet-mode-off-clean', 'switch-off-quiet-mode'],
  ])('%s, %s: %s', (complaint, comparison, remedy) => {
    const { next } = reasoned({ [complaint]: 'present', [comparison]: 'present' });
    expect(next).toMatchObject({ kind: 'remedy', id: remedy });
  });
});

// Common practice: what began with a change is looked for in the change.
it('a change that was said is looked at first while no cause stands out', () => {
  const { next, candidates } = reasoned({ 'under-extrusion': 'present', 'after-profile-change': 'present' });
  expect(candidates[0]?.probability).toBeLessThan(0.5);
  expect(next).toMatchObject({ kind: 'check', id: 'settings-differ-from-last-good-job' });
});

it('no danger sign is one check among others', () => {
  const findings = { 'repeated-nozzle-clog': 'present', 'jam-above-nozzle': 'present' };
  const { checks } = caseProblem(
    knowledge,
    contextOfCase(knowledge, { conditions: {}, findings, tried: [] }),
  );
  const dangers = checks.filter(({ id }) => knowledge.observations.get(id)?.danger);
  expect(checks.length).toBeGreaterThan(500);
  expect(dangers).toEqual([]);
});

it('with one cause all but known no statement that goes with any complaint is asked', () => {
  const { candidates, checks } = reasoned({
    'gear-clicks': 'present',
    'gear-shaft-slides': 'present',
    'opened-nothing-found': 'present',
  });
  expect(candidates[0]?.probability).toBeGreaterThan(0.7);
  const general = checks.filter(({ observation }) => knowledge.facetTables.has(observation));
  expect(general).toEqual([]);
});
