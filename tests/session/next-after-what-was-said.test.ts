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
  expect(candidates[0]?.probability).toBeLessThan(0.6);
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
    'gearbox-tooth-missing': 'present',
    'opened-nothing-found': 'present',
  });
  expect(candidates[0]?.probability).toBeGreaterThan(0.7);
  const general = checks.filter(({ observation }) => knowledge.facetTables.has(observation));
  expect(general).toEqual([]);
});

// Common practice: a part that was fitted last is taken out again when the quick looks have told nothing.
it('a fault that began with new hardware is held against the old part, after the quick looks', () => {
  const findings = { 'filament-not-grabbed': 'present', 'after-nozzle-change': 'present' };
  const { next, checks, candidates } = reasoned(findings, { 'nozzle-material': 'hardened-steel' });
  expect(candidates[0]?.probability).toBeLessThan(0.6);
  expect(next.kind).toBe('check');
  expect(next.minutes).toBeLessThanOrEqual(10);
  expect(checks.map(({ observation }) => observation)).toContain('last-change-undone-clean');
  const plain = reasoned({ 'filament-not-grabbed': 'present' });
  expect(plain.checks.map(({ observation }) => observation)).not.toContain('last-change-undone-clean');
});

// Common practice: a first layer has no walls yet; noise at homing comes before any layer; who hears an extruder knock knows that
// too little comes out; a jam that has been seen need not be felt for.
describe('what makes no sense of the trouble is not asked', () => {
  const closed = (findings: CaseFile['findings']) => {
    const context = contextOfCase(knowledge, { conditions: {}, findings, tried: [] });
    const { checks, checksLedTo } = caseProblem(knowledge, context);
    const open = new Set([...checks, ...checksLedTo].map(({ id }) => id));
    return (id: string) => knowledge.observations.has(id) && !open.has(id);
  };
  it.each([
    ['poor-first-layer', ['only-outer-walls', 'only-at-corners', 'only-at-the-seam', 'only-on-overhangs']],
    ['bangs-at-homing', ['layer-shift']],
    ['square-part-not-square', ['layer-shift']],
    ['gear-clicks', ['under-extrusion']],
    ['repeated-nozzle-clog', ['push-by-hand-at-temperature']],
    ['jam-in-extruder', ['push-by-hand-at-temperature']],
    // Common practice: who has looked at the part has said what is wrong with it.
    ['layer-shift', ['stringing', 'part-breaks-loose', 'under-extrusion', 'corners-lift']],
  ])('%s: %j', (said, ids) => {
    const isClosed = closed({ [said]: 'present' });
    expect(ids.filter((id) => !isClosed(id))).toEqual([]);
    // Of a print of which no more is known than that it is ugly, all may be asked.
    const isClosedOfUgly = closed({ 'ugly-print': 'present' });
    expect(ids.filter(isClosedOfUgly)).toEqual([]);
  });
});

// Common practice: work is looked over, step by step or plug by plug, before all of it is taken apart again.
it('a fault that began with work on the extruder or the wiring has the work looked over first', () => {
  const extruder = reasoned({ 'filament-not-grabbed': 'present', 'after-extruder-work': 'present' });
  expect(extruder.candidates[0]?.probability).toBeLessThan(0.5);
  expect(extruder.next).toMatchObject({ kind: 'check', id: 'work-not-as-in-manual' });
  const wiring = reasoned({ 'screen-or-link-drops': 'present', 'after-electrics-work': 'present' });
  expect(wiring.next).toMatchObject({ kind: 'check', id: 'plug-not-home' });
});

// Common practice: what was found broken is mended before more is asked.
it('a fault that was found on the machine is mended before general questions', () => {
  const { next, candidates } = reasoned({ 'layer-shift': 'present', 'bed-screws-loose': 'present' });
  expect(candidates[0]?.cause).toBe('bed-mount-loose');
  expect(candidates[0]?.probability).toBeLessThan(0.6);
  expect(next).toMatchObject({ kind: 'remedy', id: 'tighten-bed-mount' });
});

// Common practice: what is measured wrong on the machine is seldom a slip of the meter.
// Common practice: nobody plucks a belt while the sensor is known to be wrong.
it('a fault that was found is mended before a look that tells nothing of it', () => {
  const findings = {
    'ugly-print': 'present',
    'sensor-resistance-error': 'off',
    'other-board-or-driver-clean': 'absent',
  };
  const conditions = { polymer: 'petg', 'feed-path': 'bowden', 'machine-origin': 'modified' };
  const { next, candidates } = reasoned(findings, conditions);
  expect(candidates[0]?.cause).toBe('sensor-table-wrong');
  expect(next).toMatchObject({ kind: 'remedy', id: 'set-sensor-type' });
});

// Common practice: a look with a torch before a question about other prints.
it('what is in the way of an axis is looked for before layers are asked about', () => {
  const { next } = reasoned({
    'bangs-at-homing': 'present',
    'strange-noise': 'present',
    'each-start-of-job': 'present',
  });
  expect(next.kind).toBe('check');
  expect(['something-found-in-travel', 'endstop-state-wrong-by-hand']).toContain(next.id);
});

it('a rare fault that a measurement shows leads the candidates', () => {
  const { candidates } = reasoned({ 'ugly-print': 'present', 'sensor-resistance-error': 'off' });
  expect(candidates[0]?.cause).toBe('sensor-table-wrong');
});

// Common practice: a frayed belt is not tightened; whoever sees it asks what wears it.
it('a remedy that would hardly end the fault that was found is not its mending', () => {
  const { next, candidates } = reasoned(
    { 'layer-shift': 'probably', 'belt-frayed': 'present' },
    { 'feed-path': 'bowden', frame: 'moving-head' },
  );
  expect(candidates[0]?.cause).toBe('belt-worn');
  expect(next.kind).toBe('check');
});

// Common practice: where the filament leaves the gear, gear and idler are felt before the spool is looked at.
it('filament that has left the gear leads to gear and idler', () => {
  const { next } = reasoned(
    {
      'nothing-comes-out': 'present',
      'gaps-after-good-start': 'probably',
      'filament-off-its-track': 'present',
    },
    { 'feed-path': 'direct' },
  );
  expect(next).toMatchObject({ kind: 'check', id: 'idler-rocks-or-gear-loose' });
});

// Common practice: the mount that went soft is looked after, not the offset that it moved.
it('of several complaints the plan goes for one that the first candidate raises', () => {
  const { mainComplaint, candidates } = reasoned(
    {
      'part-creeps-or-loosens': 'present',
      'part-sags-when-warm': 'present',
      'printed-machine-part-deformed': 'present',
      'tools-out-of-line': 'present',
      'other-polymer-holds': 'absent',
    },
    { polymer: 'pla', tools: 'several-tools', 'part-use': 'warm-place' },
  );
  expect(candidates[0]?.cause).toBe('printed-machine-part-softened');
  expect(mainComplaint).toBe('part-creeps-or-loosens');
});

describe('a statement is asked only of trouble of its own sort', () => {
  it.each([
    ['only-outer-walls', 'extrusion-trouble', 'under-extrusion'],
    ['only-small-or-thin-features', 'repeated-nozzle-clog', 'drooping-overhangs'],
    ['good-cold-bad-warm', 'part-sags-when-warm', 'extruder-jams'],
    ['first-closed-top-only', 'breaks-in-the-cold', 'thermal-runaway-alarm'],
    ['brim-lifts-too', 'first-layer-not-sticking', 'corners-lift'],
  ])('%s: not of %s, but of %s', (statement, other, own) => {
    const checksOf = (complaint: string) =>
      caseProblem(
        knowledge,
        contextOfCase(knowledge, { conditions: {}, findings: { [complaint]: 'present' }, tried: [] }),
      ).checks.map(({ id }) => id);
    expect(checksOf(own)).toContain(statement);
    expect(checksOf(other)).not.toContain(statement);
  });
});

it('what comes at every change of filament is not asked for its height or the size of the part', () => {
  const problem = caseProblem(
    knowledge,
    contextOfCase(knowledge, {
      conditions: {},
      findings: { 'repeated-nozzle-clog': 'present', 'at-every-filament-change': 'present' },
      tried: [],
    }),
  );
  const asked = problem.checks.map(({ id }) => id);
  for (const id of ['small-prints-fine-large-fail', 'gaps-after-good-start', 'at-one-height'])
    expect(asked).not.toContain(id);
});

describe('what a machine or a use is known not to have is not asked', () => {
  it.each([
    ['irregular-layers', { frame: 'moving-bed' }, 'one-diagonal-only'],
    ['repeated-nozzle-clog', { 'hot-end': 'all-metal' }, 'liner-end-damaged'],
    ['change-fails', { tools: 'one-nozzle' }, 'jam-found-in-unit'],
    ['probing-aborts', { 'probe-type': 'none' }, 'probe-loose-by-hand'],
    ['corners-lift', { enclosure: 'open' }, 'open-door-clean'],
    ['part-sags-when-warm', { 'part-use': 'warm-place' }, 'was-in-car-or-sun'],
  ])('%s with %o: %s', (complaint, conditions: CaseFile['conditions'], check) => {
    const checksOf = (known: CaseFile['conditions']) =>
      caseProblem(
        knowledge,
        contextOfCase(knowledge, { conditions: known, findings: { [complaint]: 'present' }, tried: [] }),
      ).checks.map(({ id }) => id);
    expect(checksOf({})).toContain(check);
    expect(checksOf(conditions)).not.toContain(check);
  });
});
