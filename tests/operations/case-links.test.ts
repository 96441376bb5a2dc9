import { inEnglish } from '../../src-core/words/in-english.ts';
import { describe, expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { programInMemory, type TestProgram } from './program-in-memory.ts';

const complaints = [{ observation: 'stringing', value: 'slight' }];
const closed = (minutesLost: number): CaseEvent => ({
  kind: 'closed',
  causes: [{ cause: 'wet-filament' }],
  practice: null,
  minutesLost,
  gramsScrapped: 10,
  note: '',
});

/** Two printers, a spool, and three cases on the first printer: two closed, one under way. */
async function threeCases() {
  const test = await programInMemory();
  const { ask } = test;
  await ask('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 10 });
  const shop = await ask('shop:save-printer', { label: 'Kestrel', conditions: {}, printHours: 10 });
  const { spools } = await ask('shop:save-spool', { label: 'Ash grey', polymer: 'pla' });
  const idOf = (label: string) => shop.printers.find((one) => one.label === label)?.id ?? '';
  const ids: string[] = [];
  for (const minutes of [30, 40, null]) {
    test.pass(1);
    const { caseId } = await ask('case:open', { complaints, printerId: idOf('Heron') });
    ids.push(caseId);
    await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
    if (minutes !== null) await ask('case:send', { caseId, revision: 2, event: closed(minutes) });
  }
  const [first = '', second = '', third = ''] = ids;
  return {
    ...test,
    first,
    second,
    third,
    heron: idOf('Heron'),
    kestrel: idOf('Kestrel'),
    spool: spools[0]?.id ?? '',
  };
}

async function rowOf({ ask }: TestProgram, caseId: string) {
  return (await ask('case:list', {})).rows.find((row) => row.caseId === caseId);
}

const countedIn = async ({ ask }: TestProgram) => {
  const { caseCount, minutesLost } = await ask('lead:recurrence', {
    fromDay: '2026-01-01',
    toDay: '2026-12-31',
  });
  return { caseCount, minutesLost };
};

describe('several cases given to another printer or spool', () => {
  it('each get an event, all of it in one call, and the same call takes it back', async () => {
    const test = await threeCases();
    const { ask, first, third, kestrel, heron, spool } = test;
    const done = await ask('case:reassign', {
      cases: [
        { caseId: first, revision: 3, printerId: kestrel, spoolId: spool },
        { caseId: third, revision: 2, printerId: kestrel },
      ],
    });
    expect(done).toEqual({
      back: [
        { caseId: first, revision: 4, printerId: heron, spoolId: null },
        { caseId: third, revision: 3, printerId: heron },
      ],
      overtaken: [],
    });
    expect(await rowOf(test, first)).toMatchObject({
      printerLabel: 'Kestrel',
      spoolLabel: 'Ash grey',
      state: 'closed',
    });
    const view = await ask('case:view', { caseId: third });
    expect(view.printer?.label).toBe('Kestrel');
    expect(inEnglish(view.trail.at(-1)?.text ?? '')).toBe('Put right: printer Kestrel');
    expect((await ask('shop:read', {})).printers.map(({ label, openCases }) => [label, openCases])).toEqual(
      expect.arrayContaining([
        ['Heron', 0],
        ['Kestrel', 1],
      ]),
    );
    // An undo in the case takes back the answer before, not the printer.
    expect(
      (await ask('case:send', { caseId: third, revision: 3, event: { kind: 'undone' } })).printer?.label,
    ).toBe('Kestrel');

    const back = await ask('case:reassign', { cases: done.back });
    expect(back.overtaken).toEqual([{ caseId: third, number: 3 }]);
    expect(await rowOf(test, first)).toMatchObject({ printerLabel: 'Heron', spoolLabel: null });
    expect(await rowOf(test, third)).toMatchObject({ printerLabel: 'Kestrel' });
  });

  it('leave alone what was changed since, and what is of that printer already', async () => {
    const { ask, first, second, heron, kestrel } = await threeCases();
    await ask('case:send', { caseId: second, revision: 3, event: { kind: 'noted', text: 'later' } });
    const cases = [
      { caseId: first, revision: 3, printerId: heron },
      { caseId: second, revision: 3, printerId: kestrel },
    ];
    expect(await ask('case:reassign', { cases })).toEqual({
      back: [],
      overtaken: [{ caseId: second, number: 2 }],
    });
    await expect(
      ask('case:reassign', {
        cases: [{ caseId: first, revision: 3, printerId: '01ARZ3NDEKTSV4RRFFQ69G5FAV' }],
      }),
    ).rejects.toThrow('no such printer');
  });

  it('cannot be written by a screen as an event of its own', async () => {
    const { ask, first, second } = await threeCases();
    for (const event of [
      { kind: 'reassigned', printer: null },
      { kind: 'merged-into', other: { caseId: second, number: 2 } },
      { kind: 'linked', other: { caseId: second, number: 2 } },
    ] as const)
      await expect(ask('case:send', { caseId: first, revision: 3, event })).rejects.toThrow(
        'a call of its own',
      );
  });

  it('travel with an export', async () => {
    const test = await threeCases();
    const { ask, first, kestrel } = test;
    await ask('case:reassign', { cases: [{ caseId: first, revision: 3, printerId: kestrel }] });
    const { jsonLines } = await ask('case:export', {});
    const elsewhere = await programInMemory();
    elsewhere.pass(60);
    expect(await elsewhere.ask('case:import', { jsonLines })).toMatchObject({ imported: 3, faults: [] });
    expect(await rowOf(elsewhere, first)).toMatchObject({ printerLabel: 'Kestrel' });
  });
});

describe('two cases that were one', () => {
  it('count once, and the one leads to the other; taken back they count as before', async () => {
    const test = await threeCases();
    const { ask, first, second } = test;
    expect(await countedIn(test)).toEqual({ caseCount: 2, minutesLost: 70 });
    const stays = await ask('case:merge', {
      caseId: second,
      revision: 3,
      into: { caseId: first, revision: 3 },
    });
    expect(stays).toMatchObject({ caseId: first, number: 1, mergedInto: null, state: 'closed' });
    expect(inEnglish(stays.trail.at(-1)?.text ?? '')).toBe(
      'Case 2 was the same trouble: merged into this one',
    );
    expect(await countedIn(test)).toEqual({ caseCount: 1, minutesLost: 30 });
    expect(await rowOf(test, second)).toMatchObject({ state: 'merged', mergedInto: 1 });
    expect((await ask('case:list', { states: ['closed'] })).rows.map(({ number }) => number)).toEqual([1]);
    expect((await ask('case:list', { cause: 'wet-filament' })).total).toBe(1);
    expect((await ask('case:list', { search: '#2' })).rows[0]).toMatchObject({ number: 2, mergedInto: 1 });
    expect((await ask('case:timeline', { caseId: second })).links.mergedInto).toEqual({
      caseId: first,
      number: 1,
    });
    expect((await ask('case:timeline', { caseId: first })).links.merged).toEqual([
      { caseId: second, number: 2 },
    ]);
    await expect(
      ask('case:send', { caseId: second, revision: 4, event: { kind: 'noted', text: 'here' } }),
    ).rejects.toThrow('was merged into case 1');

    const parted = await ask('case:part', { caseId: second, revision: 4 });
    expect(parted).toMatchObject({ mergedInto: null, state: 'closed', closing: { minutesLost: 40 } });
    expect(await countedIn(test)).toEqual({ caseCount: 2, minutesLost: 70 });
    expect((await ask('case:timeline', { caseId: first })).links.merged).toEqual([]);
    await expect(ask('case:part', { caseId: second, revision: 4 })).rejects.toThrow('stale');
    await expect(ask('case:part', { caseId: second, revision: 5 })).rejects.toThrow('not merged');
  });

  it('leave the bench while one of them was under way, and come back to where it stood', async () => {
    const test = await threeCases();
    const { ask, first, third } = test;
    await ask('case:merge', { caseId: third, revision: 2, into: { caseId: first, revision: 3 } });
    expect((await ask('bench:read', {})).openCases).toEqual([]);
    expect((await ask('shop:read', {})).printers.every(({ openCases }) => openCases === 0)).toBe(true);
    expect((await ask('case:part', { caseId: third, revision: 3 })).state).toBe('checking');
    expect((await ask('bench:read', {})).openCases).toHaveLength(1);
  });

  it('are not made of one that stands under a danger sign, of itself, twice, or of what has moved on', async () => {
    const { ask, first, second, third } = await threeCases();
    const into = { caseId: first, revision: 3 };
    await expect(ask('case:merge', { caseId: first, revision: 3, into })).rejects.toThrow('into itself');
    await expect(ask('case:merge', { caseId: second, revision: 2, into })).rejects.toThrow('stale');
    await ask('case:send', {
      caseId: third,
      revision: 2,
      event: { kind: 'danger-answered', present: ['smoke-or-burning-smell'] },
    });
    await expect(ask('case:merge', { caseId: third, revision: 3, into })).rejects.toThrow('danger sign');
    await ask('case:merge', { caseId: second, revision: 3, into });
    await expect(
      ask('case:merge', { caseId: second, revision: 4, into: { caseId: first, revision: 4 } }),
    ).rejects.toThrow('merged into case 1 already');
  });

  it('write both events or none when another hand was there in between', async () => {
    const { ask, dispatcher, first, second } = await threeCases();
    const merge = { caseId: second, revision: 3, into: { caseId: first, revision: 3 } };
    const replies = await Promise.all([
      dispatcher.call('case:merge', merge),
      dispatcher.call('case:send', { caseId: first, revision: 3, event: { kind: 'noted', text: 'mine' } }),
    ]);
    const texts = async (caseId: string) =>
      (await ask('case:view', { caseId })).trail.map(({ kind }) => kind);
    const hasMerged = replies[0].ok;
    expect(replies.filter(({ ok }) => ok)).toHaveLength(1);
    expect((await texts(second)).includes('merged-into')).toBe(hasMerged);
    expect((await texts(first)).includes('merged')).toBe(hasMerged);
  });
});

describe('a case that came from another one', () => {
  it('says so on both sides, until it is taken back', async () => {
    const { ask, first, third } = await threeCases();
    await ask('case:link', { caseId: third, revision: 2, from: first });
    const links = async (caseId: string) => (await ask('case:timeline', { caseId })).links;
    expect((await links(third)).cameFrom).toEqual({ caseId: first, number: 1 });
    expect((await links(first)).ledTo).toEqual([{ caseId: third, number: 3 }]);
    await expect(ask('case:link', { caseId: first, revision: 3, from: third })).rejects.toThrow(
      'other way round',
    );
    await ask('case:link', { caseId: third, revision: 3, from: null });
    expect((await links(first)).ledTo).toEqual([]);
    expect((await links(third)).cameFrom).toBeNull();
    await expect(ask('case:link', { caseId: third, revision: 4, from: null })).rejects.toThrow('not said');
  });
});
