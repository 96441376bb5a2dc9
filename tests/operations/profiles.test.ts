import { inEnglish } from '../../src-core/words/in-english.ts';
import { describe, expect, it } from 'vitest';
import { programInMemory } from './program-in-memory.ts';

const complaints = [{ observation: 'stringing', value: 'slight' }];
const FINE = 'Fein "0.2" & ruhig';

async function withCases() {
  const test = await programInMemory();
  const open = async (profile?: string) => {
    test.pass(1);
    return test.ask('case:open', { complaints, ...(profile !== undefined && { profile }) });
  };
  const numbersOf = async (filter: Parameters<typeof test.ask<'case:list'>>[1]) =>
    (await test.ask('case:list', filter)).rows.map(({ number }) => number);
  const close = async (caseId: string, cause: string) => {
    await test.ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
    return test.ask('case:send', {
      caseId,
      revision: 2,
      event: {
        kind: 'closed',
        causes: [{ cause }],
        practice: null,
        minutesLost: 10,
        gramsScrapped: 1,
        note: '',
      },
    });
  };
  return { ...test, open, numbersOf, close };
}

it('a case keeps the names of the files it was opened with: shown, found and exported', async () => {
  const { ask, numbersOf } = await withCases();
  const files = ['bracket v2.gcode', 'heaters.log'];
  const view = await ask('case:open', { complaints, files });
  expect(view.files).toEqual(files);
  expect((await ask('case:open', { complaints })).files).toEqual([]);
  expect(await numbersOf({ search: 'bracket' })).toEqual([1]);
  const { jsonLines } = await ask('case:export', {});
  const elsewhere = await withCases();
  expect(await elsewhere.ask('case:import', { jsonLines })).toMatchObject({ imported: 2, faults: [] });
  const { rows } = await elsewhere.ask('case:list', { search: 'heaters' });
  expect((await elsewhere.ask('case:view', { caseId: rows[0]?.caseId ?? '' })).files).toEqual(files);
  await expect(ask('case:open', { complaints, files: ['a\u202eb.gcode'] })).rejects.toThrow(/letters|see/);
});

describe('the print profile of a case', () => {
  it('is said at the opening, stands in view and list, and is found by filter, search and order', async () => {
    const { open, ask, numbersOf } = await withCases();
    const view = await open(FINE);
    await open('Draft');
    await open();
    expect(view.profile).toBe(FINE);
    expect((await ask('case:list', { order: 'oldest' })).rows.map(({ profile }) => profile)).toEqual([
      FINE,
      'Draft',
      null,
    ]);
    expect(await numbersOf({ profile: FINE })).toEqual([1]);
    expect(await numbersOf({ profile: FINE, search: 'string' })).toEqual([1]);
    expect(await numbersOf({ profile: 'Fein', search: 'string' })).toEqual([]);
    expect(await numbersOf({ search: 'ruhig' })).toEqual([1]);
    // Cases without one stand before A, as an empty name does, on either engine.
    expect(await numbersOf({ order: 'profile-up' })).toEqual([3, 2, 1]);
    expect(await numbersOf({ order: 'profile-down' })).toEqual([1, 2, 3]);
    expect((await ask('case:list', { profile: FINE })).byState).toEqual({ 'stop-now': 1 });
  });

  it('is put right later, also once the case is closed, and taken back with an undo', async () => {
    const { open, ask, close, numbersOf } = await withCases();
    const { caseId } = await open('Draft');
    await close(caseId, 'wet-filament');
    const named = await ask('case:send', {
      caseId,
      revision: 3,
      event: { kind: 'profile-set', profile: FINE },
    });
    expect([named.state, named.profile, inEnglish(named.trail.at(-1)?.text ?? '')]).toEqual([
      'closed',
      FINE,
      `Profile: ${FINE}`,
    ]);
    expect(await numbersOf({ profile: FINE, search: 'string' })).toEqual([1]);
    const back = await ask('case:send', { caseId, revision: 4, event: { kind: 'undone' } });
    expect(back.profile).toBe('Draft');
    expect(await numbersOf({ profile: FINE, search: 'string' })).toEqual([]);
    const none = await ask('case:send', {
      caseId,
      revision: 5,
      event: { kind: 'profile-set', profile: null },
    });
    expect([none.profile, none.state]).toEqual([null, 'closed']);
    expect(await ask('case:profiles', {})).toEqual({ profiles: [] });
  });

  it('changes nothing of what the case adds up to', async () => {
    const { open, ask } = await withCases();
    const { caseId, candidates } = await open();
    const named = await ask('case:send', {
      caseId,
      revision: 1,
      event: { kind: 'profile-set', profile: 'Draft' },
    });
    expect(named.candidates.map(({ cause, probability }) => [cause, probability])).toEqual(
      candidates.map(({ cause, probability }) => [cause, probability]),
    );
  });

  it('is offered again, the one met last first, each once', async () => {
    const { open, ask } = await withCases();
    for (const name of ['Draft', FINE, 'Draft', 'Strong']) await open(name);
    expect(await ask('case:profiles', {})).toEqual({ profiles: ['Strong', 'Draft', FINE] });
  });

  it('is refused where it cannot be seen', async () => {
    const { open } = await withCases();
    await expect(open('a\u200bb')).rejects.toThrow('cannot be seen');
  });

  it('is what cases are held against each other by: what comes back with one of them stands out', async () => {
    const { open, close, ask } = await withCases();
    for (let n = 0; n < 12; n++) {
      const { caseId } = await open(n < 6 ? 'Draft' : FINE);
      await close(caseId, n < 6 ? 'partial-nozzle-clog' : 'wet-filament');
    }
    const { caseId } = await open();
    await close(caseId, 'wet-filament');
    const found = await ask('lead:recurrence', { fromDay: null, toDay: null, by: 'profile' });
    expect([found.exposure, found.withoutGroup]).toEqual(['cases', 1]);
    expect(
      found.rows
        .filter(({ standing }) => standing === 'stands-out')
        .map(({ whereLabel, what, count }) => [whereLabel, what, count])
        .sort(),
    ).toEqual([
      ['Draft', 'partial-nozzle-clog', 6],
      [FINE, 'wet-filament', 6],
    ]);
    expect(found.groups.map(({ label, count }) => [label, count]).sort()).toEqual([
      ['Draft', 6],
      [FINE, 6],
    ]);
  });

  it('goes out with the cases and comes in with them, and from a spreadsheet', async () => {
    const { open, ask } = await withCases();
    await open(FINE);
    const { jsonLines } = await ask('case:export', { caseIds: null });
    const other = await programInMemory();
    await other.ask('case:import', { jsonLines });
    expect((await other.ask('case:list', { profile: FINE })).total).toBe(1);
    await other.ask('spreadsheet:import', {
      fileName: 'old.csv',
      text: 'Date,Problem,Root cause,Profile\n2026-01-05,Stringing,Wet filament,Draft\n',
      mapping: { columns: { opened: 'Date', complaint: 'Problem', cause: 'Root cause', profile: 'Profile' } },
      isDryRun: false,
    });
    expect((await other.ask('case:list', { profile: 'Draft' })).total).toBe(1);
  });

  it('stands in the reports: of the case, and in the table of cases where any has one', async () => {
    const { open, close, ask } = await withCases();
    const { caseId } = await open(FINE);
    await close(caseId, 'wet-filament');
    const about = { kind: 'case', caseId } as const;
    const { text } = await ask('report:make', { about, form: { kind: 'document' } });
    expect(text).toContain('Fein &quot;0.2&quot; &amp; ruhig');
    const month = await ask('report:make', {
      about: { kind: 'month', month: '2026-03' },
      form: { kind: 'json-lines', table: 'cases' },
    });
    expect(month.text).toContain(JSON.stringify(FINE));
  });
});
