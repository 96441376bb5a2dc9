import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { advance, lookAhead } from '../../src-core/session/advance.ts';
import { emptyContext, type CaseContext } from '../../src-core/session/case-context.ts';
import type { AroundCase, CaseStep } from '../../src-core/session/case-step.ts';
import { Foreseen, type Thought } from '../../src-core/session/foreseen.ts';
import { likelyEvents } from '../../src-core/session/likely-events.ts';
import { contextOfCase } from '../../src-main/command/diagnose.ts';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import { isNightly } from '../nightly.ts';
import { caseFileOf, readFurtherCases, readOpenCases, type RealCase } from '../open-cases/open-cases.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

// Cases are reasoned about some hundred times; on a busy machine that takes a while.
vi.setConfig({ testTimeout: isNightly ? 1_800_000 : 240_000 });

const knowledge = shippedKnowledge();
const root = path.join(import.meta.dirname, '..', '..');
const around: AroundCase = { costs: null, spool: null };
const safe: CaseEvent = { kind: 'danger-answered', present: [] };

/** The event that opens a real case, with all that was found of it, by whoever it was. */
function opening(real: RealCase, openedBy: string | null): CaseEvent {
  const caseFile = caseFileOf(knowledge, real.id, real);
  const { intake } = contextOfCase(knowledge, caseFile);
  if (!intake) throw new Error('no intake');
  const named = new Set(intake.complaints.map(({ observation }) => observation));
  const measured = Object.entries(caseFile.findings)
    .filter(([observation]) => !named.has(observation))
    .map(([observation, value]) => ({ observation, value }));
  return { kind: 'opened', intake: { ...intake, openedBy, measured } };
}

function stepped(
  guide: Knowledge,
  before: CaseStep | null,
  event: CaseEvent,
  at: string,
  foreseen: Foreseen | null = null,
): CaseStep {
  const logged = { seq: (before?.revision ?? 0) + 1, at, event };
  // As it comes out of the casebook.
  const kept = before && (JSON.parse(JSON.stringify(before)) as CaseStep);
  const advanced = advance(guide, kept, logged, around, foreseen);
  if (!advanced.ok) throw new Error(inEnglish(advanced.reason));
  return advanced.step;
}

/** What a case is told next: one of what is likely, else the remedy is done. Nothing where it waits for something else. */
function toldNext({ moment, reasoning }: CaseStep, choice: number): readonly CaseEvent[] {
  const likely = likelyEvents(knowledge, moment, reasoning);
  const event = likely[choice % likely.length];
  if (event) return [event];
  if (moment.state !== 'checking' || reasoning.next.kind !== 'remedy') return [];
  return [{ kind: 'remedy-chosen', remedy: reasoning.next.id }, { kind: 'remedy-done' }];
}

/** A step to the last bit, without who opened the case. */
function textOf({ moment, ...step }: CaseStep): string {
  const { intake, ...context } = moment.context;
  return JSON.stringify({ ...step, moment: { ...moment, context, isOpened: intake !== null } });
}

describe('a step that was thought ahead', () => {
  it('is, to the last bit, what is worked out at once, by another person at another time', () => {
    // A guide of its own, with nothing in its memory of what was thought ahead.
    const another = readKnowledge(root, programVersion(root));
    const foreseen = new Foreseen(knowledge);
    const seconds = fc.integer({ min: 0, max: 10 ** 9 });
    const at = (after: number) => new Date(Date.parse('2026-03-02T08:00:00Z') + 1000 * after).toISOString();
    let compared = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...readOpenCases(), ...readFurtherCases()),
        fc.array(fc.record({ choice: fc.nat(20), early: seconds, late: seconds }), {
          minLength: 3,
          maxLength: 4,
        }),
        (real, answers) => {
          let ahead = stepped(knowledge, null, opening(real, 'AB'), at(0));
          let atOnce = stepped(another, null, opening(real, null), at(60));
          for (const [index, { choice, early, late }] of answers.entries()) {
            const events =
              index === 0 && ahead.moment.state === 'stop-now' ? [safe] : toldNext(ahead, choice);
            for (const event of events) {
              for (const piece of lookAhead(knowledge, ahead, around, foreseen)) piece();
              const { hits } = foreseen.counts;
              ahead = stepped(knowledge, ahead, event, at(early), foreseen);
              atOnce = stepped(another, atOnce, event, at(late));
              expect(textOf(ahead)).toBe(textOf(atOnce));
              compared += foreseen.counts.hits - hits;
            }
          }
        },
      ),
      { numRuns: isNightly ? 60 : 6, seed: 14 },
    );
    expect(compared).toBeGreaterThan(isNightly ? 80 : 8);
  });

  it('is found for a number typed in place of its band, and is what is worked out with that number', () => {
    const measured = [...knowledge.observations.values()].filter(({ measure }) => measure);
    const [real] = readOpenCases();
    if (!real) throw new Error('no case');
    const at = '2026-03-02T08:00:00Z';
    let open = stepped(knowledge, null, opening(real, null), at);
    if (open.moment.state === 'stop-now') open = stepped(knowledge, open, safe, at);
    const asked = measured
      .filter(({ id, askedWhen }) => !askedWhen && open.moment.context.findings[id] === undefined)
      .slice(0, isNightly ? 20 : 3);
    expect(asked.length).toBeGreaterThan(1);
    for (const { id, measure } of asked) {
      const foreseen = new Foreseen(knowledge);
      const wanted = stepped(knowledge, open, { kind: 'jumped', observation: id }, at);
      for (const piece of lookAhead(knowledge, wanted, around, foreseen)) piece();
      for (const { from, below } of measure?.bands ?? []) {
        // The middle of the band.
        const low = from ?? measure?.min ?? 0;
        const value = (low + (below ?? measure?.max ?? low)) / 2;
        const event: CaseEvent = { kind: 'answered', observation: id, value };
        const { hits } = foreseen.counts;
        const ahead = stepped(knowledge, wanted, event, at, foreseen);
        expect(foreseen.counts.hits).toBe(hits + 1);
        expect(textOf(ahead)).toBe(textOf(stepped(knowledge, wanted, event, at)));
      }
    }
  });

  it('is found again after a note, which changes nothing of what is known', () => {
    const foreseen = new Foreseen(knowledge);
    const [real] = readOpenCases();
    if (!real) throw new Error('no case');
    let step = stepped(knowledge, null, opening(real, null), '2026-03-02T08:00:00Z');
    for (const piece of lookAhead(knowledge, step, around, foreseen)) piece();
    step = stepped(knowledge, step, { kind: 'noted', text: 'hot day' }, '2026-03-02T08:01:00Z', foreseen);
    expect(foreseen.counts).toEqual({ hits: 0, misses: 0, kept: 1 });
    stepped(knowledge, step, safe, '2026-03-02T08:02:00Z', foreseen);
    expect(foreseen.counts).toEqual({ hits: 1, misses: 0, kept: 1 });
  });
});

describe('what was foreseen', () => {
  const context: CaseContext = {
    ...emptyContext,
    conditions: { polymer: 'abs' },
    findings: { stringing: 'slight', 'weak-layer-bonds': 'slight' },
    intake: {
      printerId: null,
      spoolId: null,
      openedBy: null,
      conditions: {},
      complaints: [{ observation: 'stringing', value: 'slight' }],
      words: '',
    },
  };
  const intake = context.intake;
  if (!intake) throw new Error('no intake');
  const costs = { currency: 'EUR', workPerHour: 40, standstillPerHour: 5, parts: {}, isCounted: true };
  const thought = { ranking: [['wet-filament', 0.5]] } as unknown as Thought;

  it.each<[string, CaseContext, AroundCase['costs']]>([
    ['costs', context, costs],
    ['a condition', { ...context, conditions: { polymer: 'pla' } }, null],
    [
      'the order of the findings',
      { ...context, findings: { 'weak-layer-bonds': 'slight', stringing: 'slight' } },
      null,
    ],
    ['a number for a band', { ...context, findings: { ...context.findings, stringing: 1 } }, null],
    [
      'the cases of the shop',
      { ...context, intake: { ...intake, ownExperience: { 'wet-filament': 2 } } },
      null,
    ],
    [
      'the links of the shop',
      {
        ...context,
        intake: {
          ...intake,
          ownLinks: [{ cause: 'wet-filament', observation: 'stringing', probability: 0.5 }],
        },
      },
      null,
    ],
    ['a complaint', { ...context, intake: { ...intake, complaints: [] } }, null],
    ['who took over', { ...context, takenOverBy: 'AB' }, null],
    ['a remedy tried', { ...context, tried: [{ remedy: 'dry-spool', outcome: 'better' }] }, null],
    [
      'a remedy that could not be done',
      { ...context, notDoable: [{ remedy: 'dry-spool', reason: 'no-tool' }] },
      null,
    ],
    ['a check passed over', { ...context, skipped: ['vapour-at-head'] }, null],
  ])('is not taken for a case that differs in %s', (_, other, otherCosts) => {
    const foreseen = new Foreseen(knowledge);
    foreseen.keep(context, null, thought);
    expect(foreseen.recall(other, otherCosts)).toBeNull();
    expect(foreseen.recall(JSON.parse(JSON.stringify(context)) as CaseContext, null)).toEqual(thought);
    expect(foreseen.counts).toEqual({ hits: 1, misses: 1, kept: 1 });
  });

  it('is bounded: the oldest goes first', () => {
    const foreseen = new Foreseen(knowledge, 3);
    const withSkipped = (index: number) => ({ ...context, skipped: [`check-${index}`] });
    for (let index = 0; index < 10; index++) foreseen.keep(withSkipped(index), null, thought);
    expect(foreseen.size).toBe(3);
    expect([6, 7, 8, 9].map((index) => foreseen.has(withSkipped(index), null))).toEqual([
      false,
      true,
      true,
      true,
    ]);
  });
});
