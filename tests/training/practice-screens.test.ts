import { describe, expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { caseViewSchema } from '../../src-core/contract/case-view.ts';
import { trainingRunSchema, type RunActionInput } from '../../src-core/contract/training-view.ts';
import type { Scenario } from '../../src-core/knowledge/schema.ts';
import { levelOfFinding } from '../../src-core/session/finding-level.ts';
import { remedyMinutes } from '../../src-core/session/reason-about.ts';
import { playPractice } from '../../src-core/training/practice-run.ts';
import { playScreens, practiceCaseView } from '../../src-core/training/practice-screens.ts';
import { setCase } from '../../src-core/training/set-case.ts';
import { readingIn, wordsOfLevel } from '../../src-core/training/shown-level.ts';
import { buildTrainingView } from '../../src-core/training/training-view.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

const knowledge = shippedKnowledge();
const event = (one: CaseEvent): RunActionInput => ({ kind: 'event', event: one });
const safe = event({ kind: 'danger-answered', present: [] });
const asked = (observation: string) => event({ kind: 'jumped', observation });
const look = (observation: string): RunActionInput => ({ kind: 'check', observation, readCautions: true });
const answered = (observation: string, value: string) => event({ kind: 'answered', observation, value });

/** The case in its screens, and why the last step was not taken; without the score, which takes seconds. */
function screens(scenario: string | null, actions: readonly RunActionInput[], seed = 1, hasHelp = false) {
  const run = trainingRunSchema.parse({ seed, scenario, asCase: true, actions });
  const set = setCase(knowledge, run, null);
  const scored = run.actions.flatMap((action) => (action.kind === 'event' ? [] : [action]));
  const played = playPractice(knowledge, set.practice, scored, (id) => remedyMinutes(knowledge, id));
  const desk = playScreens(knowledge, set, run.actions, played);
  return { view: practiceCaseView(knowledge, set, played, desk, hasHelp), refusal: desk.refusal, set };
}

/** The written answers of a case, its danger signs apart: each is looked at and entered as it is found. */
function throughWritten(scenario: Scenario): readonly RunActionInput[] {
  const dangers = Object.keys(scenario.answers).filter((id) => knowledge.observations.get(id)?.danger);
  if (dangers.length > 0)
    return [
      event({ kind: 'danger-answered', present: dangers }),
      event({ kind: 'made-safe' }),
      event({ kind: 'handed-over', note: '' }),
    ];
  const entered = Object.entries(scenario.answers).flatMap(([id, value]) => [
    asked(id),
    look(id),
    answered(id, value),
  ]);
  const { practice } = screens(scenario.id, []).set;
  const cure = [...knowledge.remedies.values()].find(({ id }) =>
    practice.causes.every((cause) => practice.removes(id, cause)),
  );
  const tried: RunActionInput[] = cure
    ? [
        event({ kind: 'verdict-asked' }),
        event({ kind: 'remedy-chosen', remedy: cure.id }),
        event({ kind: 'step-ticked', step: 0, isDone: true }),
        { kind: 'remedy', remedy: cure.id, readCautions: true },
        event({ kind: 'verified', outcome: 'cured' }),
      ]
    : [];
  return [safe, ...entered, ...tried];
}

describe('a practice case in the screens of a case', () => {
  it.each([...knowledge.scenarios.values()].map((one) => [one.id, one] as const))(
    '%s: goes from the gate through every written answer to the question what it was',
    (id, scenario) => {
      const actions = throughWritten(scenario);
      for (let count = 0; count <= actions.length; count++) {
        const { view, refusal } = screens(id, actions.slice(0, count));
        expect(refusal).toBeNull();
        expect(caseViewSchema.parse(view)).toEqual(view);
        expect(view.practice).toMatchObject({ hasHelp: false, title: scenario.title });
        // Nothing gives away what the guide thinks.
        expect([view.candidates, view.remedies, view.otherChecks, view.next]).toEqual([[], [], [], null]);
        expect(view.remedy?.repairProbability ?? null).toBeNull();
      }
      expect(['closing', 'handed-over', 'checking']).toContain(screens(id, actions).view.state);
    },
  );

  it('refuses what is not so, with the reason, and says nothing before one looks', () => {
    const popping = 'popping-while-loading';
    const before = screens('the-humid-week', [safe, asked(popping)]);
    expect(before.view.question?.observation).toBe(popping);
    expect(before.view.practice?.shown).toBeNull();
    const unseen = screens('the-humid-week', [safe, asked(popping), answered(popping, 'heavy')]);
    expect(inEnglish(unseen.refusal ?? [])).toBe('Look at the machine first.');
    const seen = screens('the-humid-week', [safe, asked(popping), look(popping)]);
    expect(seen.view.practice?.shown).toMatchObject([{ words: 'Heavy', isThere: true }]);
    const misread = screens('the-humid-week', [
      safe,
      asked(popping),
      look(popping),
      answered(popping, 'none'),
    ]);
    expect(inEnglish(misread.refusal ?? [])).toMatch(/Look again/);
    expect(misread.view.trail).toEqual(seen.view.trail);
    const hurried = screens('the-humid-week', [
      event({ kind: 'danger-answered', present: ['smoke-or-burning-smell'] }),
    ]);
    expect(inEnglish(hurried.refusal ?? [])).toMatch(/Look again/);
  });

  it('holds the outcome to what the remedy did, and a case of the casebook’s own doing is none of it', () => {
    const dried = [
      safe,
      event({ kind: 'verdict-asked' }),
      event({ kind: 'remedy-chosen', remedy: 'dry-the-spool' }),
      { kind: 'remedy' as const, remedy: 'dry-the-spool', readCautions: true },
    ];
    const { view } = screens('the-humid-week', dried);
    expect(view.state).toBe('verification');
    expect(view.practice?.shown?.map(({ words }) => inEnglish(words))).toEqual(['gone', 'gone']);
    const denied = screens('the-humid-week', [...dried, event({ kind: 'verified', outcome: 'not-cured' })]);
    expect(inEnglish(denied.refusal ?? [])).toMatch(/Look again/);
    for (const kind of ['undone', 'parked', 'noted', 'taken-over'] as const) {
      const extra = { undone: {}, parked: { note: '' }, noted: { text: 'x' }, 'taken-over': { by: 'NB' } }[
        kind
      ];
      const { refusal } = screens('the-humid-week', [safe, event({ kind, ...extra } as CaseEvent)]);
      expect(inEnglish(refusal ?? []), kind).toMatch(/real cases/);
    }
    expect(screens('the-humid-week', dried).view.canUndo).toBe(false);
  });

  it('stops at a danger sign that the writer put there: it has to be seen, and the case is handed over', () => {
    const blind = screens('warm-plug', [safe]);
    expect(inEnglish(blind.refusal ?? [])).toMatch(/one of these signs is there/);
    expect(blind.view.state).toBe('stop-now');
    expect(blind.view.practice?.shown?.map(({ observation }) => observation)).toEqual(['connector-scorched']);
    const seen = [
      event({ kind: 'danger-answered', present: ['connector-scorched'] }),
      event({ kind: 'made-safe' }),
    ];
    const stopped = screens('warm-plug', seen);
    expect(stopped.view.stopped?.takenOverBy).toBeNull();
    // Nothing is asked of a machine that stays off.
    expect(screens('warm-plug', [...seen, asked('power-terminal-loose')]).refusal).not.toBeNull();
    expect(screens('warm-plug', [...seen, event({ kind: 'handed-over', note: '' })]).view.state).toBe(
      'handed-over',
    );
  });

  it('shows no danger sign by luck: neither in drawn cases nor where a check misleads', () => {
    const dangers = [...knowledge.observations.values()].flatMap(({ danger }, index) =>
      danger ? [index] : [],
    );
    for (let seed = 1; seed <= 40; seed++) {
      const run = trainingRunSchema.parse({ seed, wrongAnswers: 0.3, actions: [] });
      const { practice } = setCase(knowledge, run, null);
      const all = new Set(practice.causes);
      expect(dangers.filter((index) => practice.levelOf(index, all) > 0)).toEqual([]);
    }
  });

  it('with the guide’s help asks, ranks and offers as in a case, of what was found', () => {
    const { view } = screens('dried-and-still-wet', [safe], 1, true);
    expect(view.practice?.hasHelp).toBe(true);
    expect(view.next).not.toBeNull();
    expect(view.candidates.length).toBeGreaterThan(3);
    expect(view.remedies.length).toBeGreaterThan(0);
  });

  it('comes out in the same score as the same looks and tries outside the screens', () => {
    const named: RunActionInput = { kind: 'name-cause', cause: 'belt-loose', confidence: 0.8 };
    const belt = 'belt-pluck-low';
    const bare = buildTrainingView(knowledge, {
      seed: 1,
      scenario: 'ghosts-at-the-corner',
      actions: [look(belt), named],
    });
    const inScreens = buildTrainingView(knowledge, {
      seed: 1,
      scenario: 'ghosts-at-the-corner',
      asCase: true,
      actions: [safe, asked(belt), look(belt), answered(belt, 'present'), named],
    });
    expect(inScreens.score).toEqual(bare.score);
    expect(inScreens.minutesSpent).toBe(bare.minutesSpent);
  }, 60_000);

  it('has at most eighty looks and tries, as a case outside the screens, however many steps lie between them', () => {
    const looks = (count: number) => Array.from({ length: count }, () => look('belt-pluck-low'));
    const steps = Array.from({ length: 300 }, () => asked('belt-pluck-low'));
    const isTaken = (actions: readonly RunActionInput[]) =>
      trainingRunSchema.safeParse({ seed: 1, asCase: true, actions }).success;
    expect(isTaken([...steps, ...looks(80)])).toBe(true);
    expect(isTaken(looks(81))).toBe(false);
  });

  it('reads every instrument of the guide within the band that is there', () => {
    for (const { id, measure } of knowledge.observations.values()) {
      if (!measure) continue;
      for (const level of knowledge.levelsOf(id).keys()) {
        const reading = readingIn(knowledge, id, level);
        if (reading !== null) expect(levelOfFinding(knowledge, id, reading), `${id} ${reading}`).toBe(level);
        expect(wordsOfLevel(knowledge, id, level)).not.toBe('');
      }
    }
  });
});
