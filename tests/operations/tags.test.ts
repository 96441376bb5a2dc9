import { describe, expect, it } from 'vitest';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { programInMemory } from './program-in-memory.ts';

const complaints = [{ observation: 'stringing', value: 'slight' }];
const TRIAL = 'Trial "3" & Größe';

async function withCases(count: number) {
  const test = await programInMemory();
  const ids: string[] = [];
  for (let n = 0; n < count; n++) {
    test.pass(1);
    ids.push((await test.ask('case:open', { complaints })).caseId);
  }
  const numbersOf = async (filter: Parameters<typeof test.ask<'case:list'>>[1]) =>
    (await test.ask('case:list', filter)).rows.map(({ number }) => number).sort((a, b) => a - b);
  const tag = async (caseId: string, revision: number, addTags: string[], removeTags: string[] = []) =>
    test.ask('case:reassign', { cases: [{ caseId, revision, addTags, removeTags }] });
  return { ...test, ids, numbersOf, tag };
}

describe('tags on cases', () => {
  it('are put on several at once, shown, found by filter, search and order, and taken back by the same call', async () => {
    const { ask, ids, numbersOf } = await withCases(3);
    const [first = '', second = '', third = ''] = ids;
    const done = await ask('case:reassign', {
      cases: [first, third].map((caseId) => ({ caseId, revision: 1, addTags: [TRIAL, 'monday'] })),
    });
    expect(done).toEqual({
      back: [first, third].map((caseId) => ({
        caseId,
        revision: 2,
        addTags: [],
        removeTags: ['monday', TRIAL],
      })),
      overtaken: [],
    });
    const view = await ask('case:view', { caseId: first });
    expect(view.tags).toEqual(['monday', TRIAL]);
    expect(inEnglish(view.trail.at(-1)?.text ?? '')).toBe(`Tag: monday and ${TRIAL}`);
    expect((await ask('case:timeline', { caseId: third })).tags).toEqual(['monday', TRIAL]);
    expect((await ask('case:list', { order: 'oldest' })).rows.map(({ tags }) => tags)).toEqual([
      ['monday', TRIAL],
      [],
      ['monday', TRIAL],
    ]);
    expect(await ask('case:tags', {})).toEqual({
      tags: [
        { tag: 'monday', cases: 2 },
        { tag: TRIAL, cases: 2 },
      ],
    });
    expect(await numbersOf({ tag: TRIAL })).toEqual([1, 3]);
    expect(await numbersOf({ tag: 'Trial' })).toEqual([]);
    expect(await numbersOf({ tag: TRIAL, search: 'string', states: ['stop-now'] })).toEqual([1, 3]);
    // With its accent or without.
    expect(await numbersOf({ search: 'grosse' })).toEqual([]);
    expect(await numbersOf({ search: 'größe' })).toEqual([1, 3]);
    expect(await numbersOf({ search: 'große' })).toEqual([1, 3]);
    expect(await numbersOf({ search: 'mond' })).toEqual([1, 3]);
    const inOrder = async (order: 'tags-up' | 'tags-down') =>
      (await ask('case:list', { order })).rows.map(({ number }) => number);
    expect(await inOrder('tags-up')).toEqual([3, 1, 2]);
    expect(await inOrder('tags-down')).toEqual([2, 1, 3]);
    await ask('case:reassign', { cases: done.back });
    expect(await numbersOf({ tag: TRIAL })).toEqual([]);
    expect(await numbersOf({ search: 'mond' })).toEqual([]);
    expect(await ask('case:tags', {})).toEqual({ tags: [] });
    expect((await ask('case:view', { caseId: second })).tags).toEqual([]);
  });

  it('stand beside another printer in one change, with one way back', async () => {
    const { ask, ids, tag } = await withCases(1);
    const [caseId = ''] = ids;
    await tag(caseId, 1, ['monday']);
    const { printers } = await ask('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 1 });
    const printerId = printers[0]?.id ?? '';
    const done = await ask('case:reassign', {
      cases: [{ caseId, revision: 2, printerId, addTags: ['trial'], removeTags: ['Monday'] }],
    });
    expect(done.back).toEqual([
      { caseId, revision: 4, printerId: null, addTags: ['monday'], removeTags: ['trial'] },
    ]);
    const view = await ask('case:view', { caseId });
    expect([view.printer?.label, view.tags]).toEqual(['Heron', ['trial']]);
    await ask('case:reassign', { cases: done.back });
    const back = await ask('case:view', { caseId });
    expect([back.printer, back.tags]).toEqual([null, ['monday']]);
  });

  it('are one tag whatever their capitals, as the shop wrote it first, until that is what is put right', async () => {
    const { ask, ids, tag, numbersOf } = await withCases(2);
    const [first = '', second = ''] = ids;
    await tag(first, 1, ['Monday']);
    await tag(second, 1, ['MONDAY', 'monday']);
    expect(await ask('case:tags', {})).toEqual({ tags: [{ tag: 'Monday', cases: 2 }] });
    // Once more changes nothing, and writes nothing.
    expect(await tag(second, 1, ['monday'])).toEqual({ back: [], overtaken: [] });
    await tag(second, 2, ['monday'], ['Monday']);
    expect(await numbersOf({ tag: 'monday' })).toEqual([2]);
  });

  it('stay through an undo in the case, a closing and a reopening, and change nothing of what it adds up to', async () => {
    const { ask, ids, tag, numbersOf } = await withCases(1);
    const [caseId = ''] = ids;
    const before = await ask('case:view', { caseId });
    await tag(caseId, 1, ['trial']);
    const after = await ask('case:view', { caseId });
    expect(after.candidates).toEqual(before.candidates);
    await ask('case:send', { caseId, revision: 2, event: { kind: 'danger-answered', present: [] } });
    expect((await ask('case:send', { caseId, revision: 3, event: { kind: 'undone' } })).tags).toEqual([
      'trial',
    ]);
    await ask('case:send', { caseId, revision: 4, event: { kind: 'danger-answered', present: [] } });
    const closed = await ask('case:send', {
      caseId,
      revision: 5,
      event: {
        kind: 'closed',
        causes: [{ cause: 'wet-filament' }],
        practice: null,
        minutesLost: 1,
        gramsScrapped: 1,
        note: '',
      },
    });
    expect([closed.state, closed.tags]).toEqual(['closed', ['trial']]);
    await tag(caseId, 6, ['late'], ['trial']);
    expect(await numbersOf({ tag: 'late', states: ['closed'] })).toEqual([1]);
  });

  it('leave a case alone that somebody else has changed, and name it', async () => {
    const { ask, ids, tag } = await withCases(1);
    const [caseId = ''] = ids;
    await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
    expect(await tag(caseId, 1, ['trial'])).toEqual({ back: [], overtaken: [{ caseId, number: 1 }] });
  });

  it('are refused where they cannot be seen, are too many, or come from a screen as an entry', async () => {
    const { ask, ids, tag } = await withCases(1);
    const [caseId = ''] = ids;
    await expect(tag(caseId, 1, ['a\u200bb'])).rejects.toThrow('cannot be seen');
    await expect(tag(caseId, 1, ['a\u0000b'])).rejects.toThrow();
    await expect(tag(caseId, 1, ['  '])).rejects.toThrow();
    const many = Array.from({ length: 20 }, (_, n) => `tag ${n}`);
    await tag(caseId, 1, many);
    await expect(tag(caseId, 2, ['one more'])).rejects.toThrow('20 tags at most');
    const event = { kind: 'tagged', on: ['x'], off: [] } as const;
    await expect(
      ask('case:send', { caseId, revision: 2, event: { ...event, on: ['x'], off: [] } }),
    ).rejects.toThrow();
  });

  it('go out with the cases and come in with them, from a spreadsheet too, through the bin, and into the reports', async () => {
    const { ask, ids, tag, numbersOf } = await withCases(1);
    const [caseId = ''] = ids;
    await tag(caseId, 1, [TRIAL]);
    const { jsonLines } = await ask('case:export', { caseIds: null });
    const other = await programInMemory();
    await other.ask('case:import', { jsonLines });
    expect((await other.ask('case:list', { tag: TRIAL })).total).toBe(1);
    await other.ask('spreadsheet:import', {
      fileName: 'old.csv',
      text: 'Date,Problem,Root cause,Tags\n2026-01-05,Stringing,Wet filament,"trial; Big order, trial"\n',
      mapping: { columns: { opened: 'Date', complaint: 'Problem', cause: 'Root cause', tags: 'Tags' } },
      isDryRun: false,
    });
    expect((await other.ask('case:list', { tag: 'Big order' })).rows.map(({ tags }) => tags)).toEqual([
      ['Big order', 'trial'],
    ]);
    const about = { kind: 'case', caseId } as const;
    const { text } = await ask('report:make', { about, form: { kind: 'document' } });
    expect(text).toContain('Trial &quot;3&quot; &amp; Größe');
    await ask('case:delete', { caseId, revision: 2 });
    expect([await numbersOf({ tag: TRIAL }), (await ask('case:tags', {})).tags]).toEqual([[], []]);
    await ask('bin:restore', { caseId });
    expect([await numbersOf({ tag: TRIAL }), (await ask('case:view', { caseId })).tags]).toEqual([
      [1],
      [TRIAL],
    ]);
  });

  it('are gone with the demo shop', async () => {
    const { ask } = await programInMemory();
    await ask('demo:load', {});
    const { rows } = await ask('case:list', { limit: 5 });
    await ask('case:reassign', {
      cases: rows.map(({ caseId, revision }) => ({ caseId, revision, addTags: ['trial'] })),
    });
    expect(await ask('case:tags', {})).toEqual({ tags: [{ tag: 'trial', cases: 5 }] });
    await ask('demo:remove', {});
    expect(await ask('case:tags', {})).toEqual({ tags: [] });
  });
});
