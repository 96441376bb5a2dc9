import { describe, expect, it } from 'vitest';
import { caseEventSchema } from '../../src-core/contract/case-event.ts';
import { emptyContext, type CaseContext } from '../../src-core/session/case-context.ts';
import { caseProblem } from '../../src-core/session/case-problem.ts';
import { chanceInTry } from '../../src-core/session/chance-in-try.ts';
import { eventWords } from '../../src-core/session/event-words.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { posteriorOf } from '../../src-core/session/reason-about.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

// What is expected here is a print lead's judgement, from memory: it fixes directions, no sizes.

const knowledge = shippedKnowledge();

/** Probability of each cause in a case that complains of `complaint`. */
function beliefIn(complaint: string, more: Partial<CaseContext> = {}): (cause: string) => number {
  const context: CaseContext = {
    ...emptyContext,
    intake: {
      printerId: null,
      spoolId: null,
      openedBy: null,
      conditions: {},
      complaints: [{ observation: complaint, value: 'present' }],
      words: '',
    },
    ...more,
    findings: { [complaint]: 'present', ...more.findings },
  };
  const posterior = posteriorOf(caseProblem(knowledge, context));
  if (posterior.kind !== 'ok') throw new Error(posterior.kind);
  return (cause) => posterior.causes[knowledge.causeIndex.get(cause) ?? -1] ?? NaN;
}

/** Factor by which what is known more changes the odds of a cause. */
function oddsFactor(complaint: string, more: Partial<CaseContext>, cause: string, base = {}): number {
  const odds = (p: number) => p / (1 - p);
  return odds(beliefIn(complaint, more)(cause)) / odds(beliefIn(complaint, base)(cause));
}

describe('a new nozzle of the same kind that is no better', () => {
  const said = { findings: { 'same-kind-nozzle-no-better': 'present' } };

  it('leaves a badly made nozzle where it was, and clears a blocked or worn one', () => {
    expect(oddsFactor('under-extrusion', said, 'nozzle-badly-made')).toBeGreaterThan(0.9);
    expect(oddsFactor('under-extrusion', said, 'partial-nozzle-clog')).toBeLessThan(0.5);
    expect(oddsFactor('under-extrusion', said, 'worn-nozzle')).toBeLessThan(0.5);
  });

  it('tells less against the make than a nozzle of another kind that is no better', () => {
    const tried = (more: object) => ({
      tried: [{ remedy: 'change-nozzle', outcome: 'not-cured' as const, ...more }],
    });
    const bad = (more: object) => beliefIn('under-extrusion', tried(more))('nozzle-badly-made');
    const before = beliefIn('under-extrusion')('nozzle-badly-made');
    expect(bad({ with: 'same-kind' })).toBeGreaterThan(before);
    expect(bad({ with: 'another-kind' })).toBeLessThan(before);
    expect(bad({})).toBeLessThan(bad({ with: 'same-kind' }));
    const worn = (more: object) => beliefIn('under-extrusion', tried(more))('worn-nozzle');
    expect(worn({ with: 'same-kind' })).toBeLessThan(0.3 * beliefIn('under-extrusion')('worn-nozzle'));
  });

  it('says of the change of nozzle which one went in, unless that was said with the change', () => {
    const belief = (more: object) =>
      beliefIn('under-extrusion', {
        ...said,
        tried: [{ remedy: 'change-nozzle', outcome: 'not-cured' as const, ...more }],
      })('nozzle-badly-made');
    expect(belief({})).toBe(belief({ with: 'same-kind' }));
    expect(belief({})).toBeGreaterThan(belief({ with: 'another-kind' }));
  });
});

describe('build and origin', () => {
  it('of a planetary extruder that does not grip raises the gearbox, of one without gearing clears it', () => {
    const gearing = (value: string) => ({ conditions: { 'extruder-gearing': value } });
    expect(oddsFactor('filament-not-grabbed', gearing('planetary'), 'feed-gearbox-worn')).toBeGreaterThan(2);
    expect(oddsFactor('filament-not-grabbed', gearing('none'), 'feed-gearbox-worn')).toBeLessThan(0.1);
  });

  it("of another user's profile raises wrong settings and lowers nothing", () => {
    const { shifts } = knowledge.priorsUnder({ 'profile-source': 'another-user' });
    const raised = shifts.map(({ cause }) => cause);
    expect(raised).toContain('profile-mixed-up');
    expect(raised).toContain('acceleration-too-high');
    expect(
      raised.every(
        (cause) =>
          knowledge.causes.get(cause)?.family === 'settings' ||
          knowledge.causes.get(cause)?.facets?.sits?.includes('profile'),
      ),
    ).toBe(true);
    expect(shifts.every(({ timesOdds }) => timesOdds > 1)).toBe(true);
  });

  it('of a PLA mount at a motor raises a softened part of the machine', () => {
    const known = { conditions: { 'printed-machine-part': 'pla' } };
    expect(oddsFactor('filament-not-grabbed', known, 'printed-machine-part-softened')).toBeGreaterThan(5);
  });
});

describe('comparisons that used to point the wrong way', () => {
  // A spool that was dried and starts clean is not the wet one it was.
  it('a dried spool that gets worse in the job tells of water taken up while printing', () => {
    const said = { findings: { 'dried-fades-in-job': 'present' } };
    const belief = beliefIn('stringing', said);
    expect(belief('uptake-while-printing')).toBeGreaterThan(belief('wet-filament'));
  });

  it('a setting without effect over its whole range clears the settings, one small step hardly does', () => {
    const said = { findings: { 'whole-range-no-effect': 'present' } };
    expect(oddsFactor('stringing', said, 'retraction-too-short')).toBeLessThan(0.6);
    const entry = { cause: 'retraction-too-short', chance: 0.6, source: 'estimate' } as const;
    expect(chanceInTry(entry, { reach: 'one-small-step' })).toBeCloseTo(0.21);
    expect(chanceInTry(entry, { reach: 'whole-range' })).toBeCloseTo(0.8);
    expect(chanceInTry(entry, {})).toBe(0.6);
  });

  it('gone on battery tells of earth and noise more than of the cable', () => {
    const said = { findings: { 'isolated-host-clean': 'present' } };
    expect(oddsFactor('screen-or-link-drops', said, 'earth-missing')).toBeGreaterThan(3);
    expect(oddsFactor('screen-or-link-drops', said, 'usb-link-unreliable')).toBeLessThan(
      oddsFactor('screen-or-link-drops', said, 'interference-or-earth'),
    );
  });

  it('are told, never asked by themselves', () => {
    for (const id of ['same-kind-nozzle-no-better', 'same-kind-spare-no-better', 'other-kind-of-part-cures'])
      expect(knowledge.observations.get(id)?.onlyWhenLedTo, id).toBe(true);
  });
});

describe('the last change', () => {
  it.each([
    ['filament-change', 'after-handling-at-head'],
    ['jam-cleared', 'after-jam'],
    ['room-change', 'after-room-change'],
    ['host-change', 'after-host-change'],
  ])('%s says the same as the statement %s, counted once', (value, statement) => {
    const byCondition = beliefIn('layer-shift', { conditions: { 'last-change': value } });
    const byStatement = beliefIn('layer-shift', { findings: { [statement]: 'present' } });
    for (const cause of ['belt-loose', 'cable-snags', 'static-discharge'])
      expect(byCondition(cause)).toBeCloseTo(byStatement(cause), 10);
  });
});

describe('how a remedy was tried, in the log', () => {
  it('is taken where it is said, may be left out, and nothing else is taken', () => {
    const verified = { kind: 'verified', outcome: 'not-cured' };
    expect(caseEventSchema.parse(verified)).toEqual(verified);
    const said = caseEventSchema.parse({ ...verified, with: 'same-kind' });
    expect(inEnglish(eventWords(knowledge, said))).toBe('Not cured, with a part of the same kind');
    expect(caseEventSchema.safeParse({ ...verified, with: 'the same' }).success).toBe(false);
  });
});

describe('every circumstance', () => {
  it('moves a cause with each of its values but a plain one', () => {
    const moved = new Map<string, Set<string>>();
    for (const { movedBy } of knowledge.causes.values())
      for (const { when } of movedBy)
        for (const [id, test] of Object.entries(when))
          for (const value of [test].flat())
            if (typeof value === 'string') moved.set(id, (moved.get(id) ?? new Set()).add(value));
    const idle = [...knowledge.conditions.values()]
      .filter(({ staysWith, about }) => staysWith === 'printer' || about === 'fault')
      .filter(({ values }) => values !== undefined)
      .filter(
        ({ id, values = [] }) =>
          values.filter((one) => moved.get(id)?.has(one.id)).length < values.length - 1,
      )
      .map(({ id }) => id);
    expect(idle).toEqual([]);
  });
});
