import { describe, expect, it } from 'vitest';
import type { InputOf } from '../../src-core/contract/calls.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { jpeg } from '../photos/jpeg.ts';
import { programInMemory, type TestProgram } from './program-in-memory.ts';

const RESULT = '01ARZ3NDEKTSV4RRFFQ69G5FA';
/** The belt case, solved with one check. */
const solved = {
  seed: 1,
  scenario: 'ghosts-at-the-corner',
  actions: [
    { kind: 'check', observation: 'belt-pluck-low', readCautions: true },
    { kind: 'name-cause', cause: 'belt-loose', confidence: 0.9 },
  ],
} as const satisfies {
  readonly seed: number;
  readonly scenario: string;
  readonly actions: readonly unknown[];
};

async function shopWith(initials: string): Promise<TestProgram & { personId: string }> {
  const test = await programInMemory();
  const shop = await test.ask('shop:save-person', { initials, role: 'operator' });
  return { ...test, personId: shop.people[0]?.id ?? '' };
}

function keep(
  { ask, personId }: Awaited<ReturnType<typeof shopWith>>,
  last: string,
  done: InputOf<'training:keep'>['done'],
) {
  return ask('training:keep', { personId, resultId: RESULT + last, done });
}
const run = () => ({ ...solved, actions: [...solved.actions] });

describe('results of a trainee', { timeout: 120_000 }, () => {
  it('are worked out by the host, kept once, and move what the trainee is taken to know', async () => {
    const test = await shopWith('RK');
    const before = await test.ask('training:record', { personId: test.personId });
    expect(before.results).toEqual([]);
    const record = await keep(test, 'A', { kind: 'case', run: run() });
    expect(record.results[0]?.result).toMatchObject({
      kind: 'case',
      title: 'Ghosts beside every corner',
      topics: ['motion'],
      isCauseRight: true,
      isPassed: true,
      checks: 1,
      confidence: 0.9,
    });
    const known = (of: typeof record, topic: string) =>
      of.skills.find((one) => one.topic === topic)?.known ?? 0;
    expect(known(record, 'motion')).toBeGreaterThan(known(before, 'motion'));
    expect(known(record, 'electrics')).toBe(known(before, 'electrics'));
    await expect(keep(test, 'A', { kind: 'case', run: run() })).rejects.toThrow('stale');
    expect((await test.ask('training:record', { personId: test.personId })).results).toHaveLength(1);
  });

  it('B15: two pages keep the results of one class together, and neither writes back what the other took out', async () => {
    const one = await shopWith('RK');
    const shop = await one.ask('shop:save-person', { initials: 'LM', role: 'operator' });
    const other = { ...one, personId: shop.people.find(({ initials }) => initials === 'LM')?.id ?? '' };
    await keep(one, 'A', { kind: 'read', lesson: 'water' });
    await keep(other, 'B', { kind: 'read', lesson: 'water' });
    await one.ask('training:forget', { personId: one.personId });
    await keep(other, 'C', { kind: 'read', lesson: 'water' });
    const kept = async ({ personId }: typeof one) =>
      (await one.ask('training:record', { personId })).results.length;
    expect([await kept(one), await kept(other)]).toEqual([0, 2]);
  });

  it('fail whoever touches a hot end without reading the caution, whatever the cause', async () => {
    const test = await programInMemory();
    const act = (readCautions: boolean) =>
      test.ask('training:view', {
        seed: 1,
        scenario: 'the-humid-week',
        actions: [
          { kind: 'check', observation: 'popping-while-loading', readCautions },
          { kind: 'name-cause', cause: 'wet-filament', confidence: 1 },
        ],
      });
    const { score: careless } = await act(false);
    expect(careless).toMatchObject({ isCauseRight: true, isPassed: false });
    expect(careless?.steps[0]?.missedCautions.length).toBeGreaterThan(0);
    const { score: careful } = await act(true);
    expect(careful).toMatchObject({ isCauseRight: true, isPassed: true });
    expect((careful?.points ?? 0) - (careless?.points ?? 0)).toBe(10);
    // Beside the planner's way: the same step, or what the planner would have done and what it was expected to save.
    const step = careful?.steps[0];
    expect(step?.planner?.label).toBeTruthy();
    expect(step?.costMinutes).toBeGreaterThanOrEqual(0);
    expect(careful?.planner).toMatchObject({ isCured: true });
    expect(careful?.planner.spread).toHaveLength(3);
  });

  it('bring back what was missed the day after', async () => {
    const test = await shopWith('RK');
    const [check] = solved.actions;
    const missed = { ...solved, actions: [check, { kind: 'name-cause' as const, cause: 'belt-worn' }] };
    const record = await keep(test, 'A', { kind: 'case', run: missed });
    expect(record.comesBack).toMatchObject([{ item: 'belt-loose', isDue: false }]);
    test.pass(25 * 60);
    const later = await test.ask('training:record', { personId: test.personId });
    expect(later.comesBack).toMatchObject([{ item: 'belt-loose', isDue: true }]);
    expect(later.suggestion?.next).toMatchObject({ kind: 'case', run: { focus: 'belt-loose' } });
    const group = await test.ask('training:class', {});
    expect(group.missed).toMatchObject([{ item: 'belt-loose', wrong: 1, tries: 1 }]);
    expect(group.people).toMatchObject([{ initials: 'RK', results: 1 }]);
  });

  it('carry a trainee through a lesson to a sign-off that lapses', async () => {
    const test = await shopWith('RK');
    await keep(test, 'A', { kind: 'read', lesson: 'moving-parts' });
    const half = await keep(test, 'B', { kind: 'case', run: run() });
    const lesson = (record: typeof half) => record.course.find((one) => one.lesson === 'moving-parts');
    expect(lesson(half)?.steps.map(({ isDone }) => isDone)).toEqual([true, true, false]);
    expect(lesson(half)?.isDone).toBe(false);
    const whole = await keep(test, 'C', {
      kind: 'case',
      run: {
        seed: 1,
        scenario: 'the-step-in-the-tower',
        actions: [{ kind: 'name-cause', cause: 'pulley-screw-loose' }],
      },
    });
    expect(lesson(whole)?.isDone).toBe(true);
    const signed = await keep(test, 'D', { kind: 'signed-off', by: 'EL', lapsesOn: '2026-04-01' });
    expect(signed.signOff).toMatchObject({ by: 'EL', hasLapsed: false });
    const last = signed.results.at(-1)?.result;
    expect(last?.kind === 'signed-off' && last.shown.map(inEnglish)).toEqual(['Moving parts (2 cases)']);
    test.pass(40 * 24 * 60);
    expect((await test.ask('training:record', { personId: test.personId })).signOff?.hasLapsed).toBe(true);
  });

  it('of earlier versions, kept as sentences, are read and counted with those of today', async () => {
    const test = await shopWith('RK');
    const drawn = { seed: 12, actions: [{ kind: 'name-cause' as const, cause: 'belt-worn' }] };
    const record = await keep(test, 'A', { kind: 'case', run: drawn });
    const today = record.results[0]?.result;
    if (today?.kind !== 'case') throw new Error('no case was kept');
    expect(inEnglish(today.title)).toBe('Case 12');
    const earlier = [
      { ...today, title: 'Case 12', trueLabel: 'Loose belt, Worn nozzle' },
      { kind: 'signed-off', by: 'EL', lapsesOn: '2027-01-01', shown: ['Moving parts (2 cases, 1 drill)'] },
    ];
    await test.program.casebook.db
      .insertInto('training_results')
      .values(
        earlier.map((result, index) => ({
          id: RESULT + String(index),
          person_id: test.personId,
          at: `2026-01-0${index + 1}T10:00:00.000Z`,
          result_json: JSON.stringify(result),
        })),
      )
      .execute();
    const { results, unreadable } = await test.ask('training:record', { personId: test.personId });
    expect(unreadable).toBe(0);
    const kept = results.map(({ result }) => result);
    for (const one of earlier) expect(kept).toContainEqual(one);
    const group = await test.ask('training:class', {});
    expect(group.missedCases).toMatchObject([{ wrong: 2, tries: 2 }]);
  });

  it('say how sure somebody was beside how often it was right, and what the last sitting changed', async () => {
    const test = await shopWith('RK');
    const [check] = solved.actions;
    await keep(test, 'A', { kind: 'case', run: run() });
    test.pass(24 * 60);
    const wrong = { kind: 'name-cause' as const, cause: 'belt-worn', confidence: 0.9 };
    const record = await keep(test, 'B', { kind: 'case', run: { ...solved, actions: [check, wrong] } });
    expect(record.calibration).toEqual([{ stated: 0.9, cases: 2, right: 1 }]);
    // Brier (1950): 100 (1 - (0.9 - 1)^2) and 100 (1 - 0.9^2), in the middle.
    expect(record.confidenceScore).toBeCloseTo((99 + 19) / 2, 9);
    const group = await test.ask('training:class', {});
    expect(group.missedCases).toEqual([
      { title: 'Ghosts beside every corner', scenario: 'ghosts-at-the-corner', wrong: 1, tries: 2 },
    ]);
    const sitting = group.people[0]?.sitting;
    expect(sitting).toMatchObject({ results: 1, cases: 1, passed: 0 });
    expect(sitting?.knownBefore).toBeCloseTo(group.people[0]?.course[0]?.expectedKnown ?? -1, 9);
    expect(sitting?.knownAfter).toBeCloseTo(group.people[0]?.course[1]?.expectedKnown ?? -1, 9);
  });

  it('count for nothing that one knows where the guide helped, but what was missed comes back', async () => {
    const test = await shopWith('RK');
    const before = await test.ask('training:record', { personId: test.personId });
    const helped = await keep(test, 'A', { kind: 'case', run: { ...run(), withOdds: true } });
    expect(helped.results).toHaveLength(1);
    expect(helped.skills).toEqual(before.skills);
    expect(helped.course).toEqual(before.course);
    expect(helped.comesBack).toEqual([]);
  });

  it('are signed off by whoever teaches, not from a trainee’s own device', async () => {
    const test = await shopWith('RK');
    const sign = (role: 'operator' | 'trainer', resultId: string) =>
      test.dispatcher.dispatch(
        'training:keep',
        {
          personId: test.personId,
          resultId: RESULT + resultId,
          done: { kind: 'signed-off', by: 'EL', lapsesOn: '2027-01-01' },
        },
        {
          kind: 'device',
          deviceId: '01ARZ3NDEKTSV4RRFFQ69G5FAV',
          label: 'Telephone',
          role,
          printerId: null,
          person: null,
        },
      );
    expect(await sign('operator', 'A')).toMatchObject({ ok: false, error: { code: 'forbidden' } });
    expect(await sign('trainer', 'B')).toMatchObject({ ok: true });
  });

  it('show a trainee of the shop’s own cases those photos only that were checked off one by one', async () => {
    const { ask, dispatcher, program } = await programInMemory();
    const { caseId } = await ask('case:open', { complaints: [{ observation: 'stringing', value: 'heavy' }] });
    const photos: string[] = [];
    for (const [index, width] of [640, 800].entries()) {
      const { photo } = await ask('photo:keep', { base64: jpeg(width).toString('base64') });
      photos.push(photo);
      await ask('case:send', { caseId, revision: index + 1, event: { kind: 'photographed', photo } });
    }
    await ask('case:send', { caseId, revision: 3, event: { kind: 'danger-answered', present: [] } });
    const tooEarly = await dispatcher.call('training:view', { seed: 1, caseId, actions: [] });
    expect(tooEarly).toMatchObject({
      ok: false,
      error: { code: 'refused', said: { id: 'training.onlyClosedCases' } },
    });
    await ask('case:send', {
      caseId,
      revision: 4,
      event: {
        kind: 'closed',
        causes: [{ cause: 'wet-filament' }],
        practice: null,
        minutesLost: 1,
        gramsScrapped: 1,
        note: 'Anna saw it',
      },
    });
    const own = await ask('training:view', { seed: 1, caseId, actions: [] });
    expect(inEnglish(own.title ?? '')).toBe('A case of this shop');
    expect(inEnglish(own.story.told?.text ?? '')).toMatch(/^This happened here\./);
    const seen = async () =>
      (await ask('training:view', { seed: 1, caseId, asCase: true, actions: [] })).story.photos;
    expect((await ask('training:options', {})).cases).toMatchObject([{ caseId, hasPhotos: true }]);
    expect(await seen()).toEqual([]);
    const [first = '', second = ''] = photos;
    const free = { caseId, photo: second, isFree: true };
    await Promise.all([ask('training:free-photo', free), ask('training:free-photo', free)]);
    expect(await seen()).toEqual([second]);
    const settings = await program.casebook.db.selectFrom('shop_settings').selectAll().execute();
    expect(settings).toMatchObject([{ name: 'practice-photos', revision: 1 }]);
    expect((await ask('training:photos', { caseId })).photos).toMatchObject([
      { photo: first, isFree: false },
      { photo: second, isFree: true },
    ]);
    await ask('training:free-photo', { ...free, isFree: false });
    expect(await seen()).toEqual([]);
    const other = await dispatcher.call('training:free-photo', { ...free, photo: '0'.repeat(64) });
    expect(other).toMatchObject({ ok: false, error: { code: 'not-found' } });
  });

  it('can be taken along, and then be forgotten', async () => {
    const test = await shopWith('RK');
    await keep(test, 'A', { kind: 'read', lesson: 'water' });
    const drill = await test.ask('training:drill', { drill: 'stations', seed: 4 });
    const answer = Object.fromEntries(drill.questions.map(({ id, choices }) => [id, choices[0]?.id ?? '']));
    await keep(test, 'B', { kind: 'drill', drill: 'stations', seed: 4, answer });
    const { personId } = test;
    const { jsonLines, count } = await test.ask('training:export', { personId });
    expect(count).toBe(2);
    const lines = jsonLines
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as { result: { kind: string } });
    expect(lines.map(({ result }) => result.kind)).toEqual(['read', 'drill']);
    const forgotten = await test.ask('training:forget', { personId });
    expect(forgotten.results).toEqual([]);
    expect((await test.ask('training:export', { personId })).count).toBe(0);
    expect(await test.program.casebook.db.selectFrom('training_results').selectAll().execute()).toEqual([]);
  });

  it('of demo people go with the demo shop', { timeout: 400_000 }, async () => {
    const test = await programInMemory();
    const { people } = await test.ask('demo:load', {});
    const personId = people[0]?.id ?? '';
    await test.ask('training:keep', {
      personId,
      resultId: `${RESULT}A`,
      done: { kind: 'read', lesson: 'water' },
    });
    // A case of the shop is practised: nobody's initials and nothing that somebody wrote is in it.
    const { cases } = await test.ask('training:options', {});
    const view = await test.ask('training:view', { seed: 1, caseId: cases[0]?.caseId ?? '', actions: [] });
    expect(view.story.complaints.length).toBeGreaterThan(0);
    const said = JSON.stringify([view.title, view.story]);
    for (const { initials } of people) expect(said).not.toMatch(new RegExp(`\\b${initials}\\b`));
    await test.ask('demo:remove', {});
    expect(await test.program.casebook.db.selectFrom('training_results').selectAll().execute()).toEqual([]);
  });
});
