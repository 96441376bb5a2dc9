import { writeFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CALL_NAMES } from '../../src-core/contract/call-names.ts';
import { calls } from '../../src-core/contract/calls.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { speak } from '../../src-renderer/messages/language.ts';
import { parse } from '../../src-renderer/messages/parse-pattern.ts';
import { wordsIn } from '../../src-renderer/wording/words-in.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { programInMemory } from './program-in-memory.ts';

const complaint = { complaints: [{ observation: 'popping-while-loading', value: 'heavy' }] };

describe('the gate', () => {
  it('refuses unknown calls and anything that is not a name', async () => {
    const { dispatcher } = await programInMemory();
    for (const name of ['case:burn', '', null, 7, { name: 'case:list' }, '__proto__', 'constructor']) {
      expect(await dispatcher.dispatch(name, {})).toMatchObject({
        ok: false,
        error: { code: 'bad-request' },
      });
    }
  });

  it('refuses a caller that the table does not name', async () => {
    const { dispatcher } = await programInMemory({ caller: 'command' });
    expect(await dispatcher.dispatch('case:send', {})).toMatchObject({
      ok: false,
      error: { code: 'forbidden' },
    });
  });

  it('answers any input whatever with a reply and never throws', async () => {
    const { dispatcher } = await programInMemory();
    const names = CALL_NAMES.filter((name) => !['demo:load', 'backup:make', 'training:view'].includes(name));
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...names), fc.anything(), async (name, input) => {
        const reply = await dispatcher.dispatch(name, input);
        expect(typeof reply.ok).toBe('boolean');
        if (!reply.ok) expect(reply.error.code).not.toBe('internal');
      }),
      { numRuns: 300 },
    );
  });

  it('unknown keys fail: every input is a closed object', () => {
    for (const name of CALL_NAMES) {
      expect(calls[name].input.safeParse({ surprise: 1 }).success, name).toBe(false);
    }
  });

  it('while the casebook is unavailable says why, and still answers what leads back', async () => {
    const folder = temporaryFolder();
    const file = path.join(folder, 'casebook.sqlite');
    writeFileSync(file, 'no database');
    const { dispatcher } = await programInMemory({ file });
    const refused = await dispatcher.dispatch('case:list', {});
    expect(refused).toMatchObject({ ok: false, error: { code: 'casebook-unavailable' } });
    speak('de', { 'casebookTrouble.noCasebook': 'ganz etwas anderes' }, parse);
    expect(refused.ok ? '' : wordsIn(refused.error.said ?? '', '°C')).toMatch(
      /^The casebook .* cannot be read: ganz etwas anderes\. It was left untouched\. There is no backup in /,
    );
    speak('en', {}, parse);
    expect(await dispatcher.dispatch('backup:list', {})).toMatchObject({ ok: true });
    expect(await dispatcher.dispatch('guide:read', {})).toMatchObject({ ok: true });
  });
});

describe('a case', () => {
  it('starts with what printer and spool know, and what was said at intake wins', async () => {
    const { ask } = await programInMemory();
    const shop = await ask('shop:save-printer', {
      label: 'Heron',
      conditions: { 'nozzle-mm': 0.8, enclosure: 'closed' },
      printHours: 900,
    });
    const withSpool = await ask('shop:save-spool', { label: 'A-12', polymer: 'abs', storage: 'open' });
    const view = await ask('case:open', {
      ...complaint,
      printerId: shop.printers[0]?.id ?? null,
      spoolId: withSpool.spools[0]?.id ?? null,
      conditions: { 'nozzle-mm': 0.4 },
    });
    const known = Object.fromEntries(view.conditions.map(({ id, value }) => [id, value]));
    expect(known).toMatchObject({
      'nozzle-mm': 0.4,
      enclosure: 'closed',
      polymer: 'abs',
      storage: 'open',
      'printer-hours': 900,
    });
    expect(view.printer?.label).toBe('Heron');
    expect(view.state).toBe('stop-now');
  });

  it('an answer given to an older revision is refused as stale, with the case as it stands', async () => {
    const { ask, dispatcher } = await programInMemory();
    const { caseId } = await ask('case:open', complaint);
    const send = (revision: number) =>
      dispatcher.call('case:send', { caseId, revision, event: { kind: 'danger-answered', present: [] } });
    expect(await send(1)).toMatchObject({ ok: true, value: { revision: 2, state: 'checking' } });
    // The same click again: nothing is written twice.
    expect(await send(1)).toMatchObject({ ok: false, error: { code: 'stale', current: { revision: 2 } } });
    expect((await ask('case:view', { caseId })).revision).toBe(2);
  });

  it('two answers at the same moment: one is written, the other is told', async () => {
    const { ask, dispatcher } = await programInMemory();
    const { caseId } = await ask('case:open', complaint);
    const both = await Promise.all(
      [1, 1].map((revision) =>
        dispatcher.call('case:send', { caseId, revision, event: { kind: 'danger-answered', present: [] } }),
      ),
    );
    expect(both.filter((reply) => reply.ok)).toHaveLength(1);
    expect((await ask('case:view', { caseId })).revision).toBe(2);
  });

  it('an event that does not fit is refused in words and leaves no trace', async () => {
    const { ask, dispatcher } = await programInMemory();
    const { caseId } = await ask('case:open', complaint);
    const reply = await dispatcher.call('case:send', { caseId, revision: 1, event: { kind: 'remedy-done' } });
    expect(reply).toMatchObject({ ok: false, error: { code: 'refused' } });
    expect((await ask('case:view', { caseId })).revision).toBe(1);
  });

  it('can be found again by number of words, printer, cause and state, and shows minutes and grams', async () => {
    const { ask, pass } = await programInMemory();
    const shop = await ask('shop:save-printer', { label: 'Kestrel', conditions: {}, printHours: 10 });
    const opened = await ask('case:open', {
      ...complaint,
      printerId: shop.printers[0]?.id ?? null,
      openedBy: 'RK',
      words: 'right after lunch',
    });
    pass(30);
    await ask('case:send', {
      caseId: opened.caseId,
      revision: 1,
      event: { kind: 'danger-answered', present: [] },
    });
    await ask('case:send', {
      caseId: opened.caseId,
      revision: 2,
      event: {
        kind: 'closed',
        causes: [{ cause: 'wet-filament' }],
        practice: 'spool-left-open',
        minutesLost: 45,
        gramsScrapped: 120,
        note: '50 % of the batch',
      },
    });
    await ask('case:open', complaint);
    const find = async (filter: Parameters<typeof ask<'case:list'>>[1]) =>
      (await ask('case:list', filter)).rows.map((row) => row.number);
    expect(await find({ search: 'kestrel popping' })).toEqual([1]);
    expect(await find({ search: 'AFTER lunch rk' })).toEqual([1]);
    expect(await find({ search: '50 %' })).toEqual([1]);
    expect(await find({ search: '51 %' })).toEqual([]);
    expect(await find({ search: 'crackles kestrel' })).toEqual([1]);
    expect(await find({ search: '#1' })).toEqual([1]);
    expect(await find({ search: '2' })).toContain(2);
    expect(await find({ cause: 'wet-filament' })).toEqual([1]);
    expect(await find({ states: ['closed'] })).toEqual([1]);
    expect(await find({ printerId: shop.printers[0]?.id ?? null })).toEqual([1]);
    expect(await find({})).toEqual([2, 1]);
    const [row] = (await ask('case:list', { search: 'kestrel' })).rows;
    expect(row).toMatchObject({
      isConfirmed: true,
      causeLabel: 'Wet filament',
      minutesLost: 45,
      gramsScrapped: 120,
    });
  });

  it('goes on when everything that was wrong is found absent after all', async () => {
    const { ask } = await programInMemory();
    const { caseId } = await ask('case:open', complaint);
    await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
    const view = await ask('case:send', {
      caseId,
      revision: 2,
      event: { kind: 'answered', observation: 'popping-while-loading', value: 'none' },
    });
    expect(view.state).toBe('checking');
    expect(view.question).not.toBeNull();
    const why = await ask('case:why-check', { caseId, observation: view.question?.observation ?? '' });
    expect(why.answers.length).toBeGreaterThan(1);
  });

  it('has a timeline that ranks the causes after each event and marks what was taken back', async () => {
    const { ask } = await programInMemory();
    const { caseId } = await ask('case:open', complaint);
    await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
    await ask('case:send', {
      caseId,
      revision: 2,
      event: { kind: 'answered', observation: 'vapour-at-head', value: 'none' },
    });
    await ask('case:send', { caseId, revision: 3, event: { kind: 'undone' } });
    const { steps, refusedSeq, isSameKnowledge } = await ask('case:timeline', { caseId });
    expect(refusedSeq).toBeNull();
    expect(isSameKnowledge).toBe(true);
    expect(steps.map((step) => step.isUndone)).toEqual([false, false, true, false]);
    const wetAt = (index: number) =>
      steps[index]?.candidates.find(({ cause }) => cause === 'wet-filament')?.probability ?? 0;
    expect(wetAt(2)).toBeLessThan(wetAt(1));
    expect(wetAt(3)).toBeCloseTo(wetAt(1), 12);
  });
});

describe('export and import', () => {
  it('brings whole cases with printer and spool into another casebook, once', async () => {
    const from = await programInMemory();
    await from.ask('demo:load', {});
    const { jsonLines, count } = await from.ask('case:export', { caseIds: null });
    const to = await programInMemory();
    const first = await to.ask('case:import', { jsonLines });
    expect(first).toEqual({ imported: count, known: 0, faults: [] });
    expect(await to.ask('case:import', { jsonLines })).toEqual({ imported: 0, known: count, faults: [] });
    const again = await to.ask('case:export', { caseIds: null });
    const sorted = (text: string) =>
      text
        .split('\n')
        .map((line) => line.replace(/"printHours":[\d.]+/, ''))
        .sort();
    expect(sorted(again.jsonLines)).toEqual(sorted(jsonLines));
  });

  it('names each bad line and takes the good ones', async () => {
    const from = await programInMemory();
    await from.ask('case:open', complaint);
    const { jsonLines } = await from.ask('case:export', { caseIds: null });
    const good = jsonLines.trim();
    const wrongNumber = good.replace('"seq":1', '"seq":2');
    const wrongId = good.replace('popping-while-loading', 'poping-while-loading');
    const to = await programInMemory();
    const result = await to.ask('case:import', {
      jsonLines: ['{"half', wrongNumber, wrongId, '', '{}', good].join('\n'),
    });
    expect(result.imported).toBe(1);
    expect(result.faults.map(({ line }) => line)).toEqual([1, 2, 3, 5]);
    expect(inEnglish(result.faults[2]?.message ?? [])).toContain('popping-while-loading');
  });
});

describe('the demo shop', () => {
  it('loads a year of cases with one call, the same from the same seed, and goes with one call', async () => {
    const { ask } = await programInMemory();
    const shop = await ask('demo:load', {});
    expect(shop.printers.length).toBeGreaterThanOrEqual(5);
    const list = await ask('case:list', { limit: 200 });
    expect(list.total).toBeGreaterThan(80);
    const other = await programInMemory();
    await other.ask('demo:load', {});
    const otherList = await other.ask('case:list', { limit: 200 });
    const gist = (rows: typeof list.rows) =>
      rows.map(({ openedAt, complaint: words, causeLabel }) => [openedAt, words, causeLabel]);
    expect(gist(otherList.rows)).toEqual(gist(list.rows));
    const empty = await ask('demo:remove', {});
    expect(empty).toMatchObject({ printers: [], spools: [], people: [], hasDemo: false });
    expect((await ask('case:list', {})).total).toBe(0);
  });

  it('leaves the shop\u2019s own cases and the demo printers they name', async () => {
    const { ask } = await programInMemory();
    const shop = await ask('demo:load', {});
    await ask('case:open', { ...complaint, printerId: shop.printers[0]?.id ?? null });
    const after = await ask('demo:remove', {});
    expect(after.printers.map(({ label }) => label)).toEqual([shop.printers[0]?.label]);
    expect((await ask('case:list', {})).total).toBe(1);
  });

  it('walk 26: what stayed of it for a trial case goes once that case is gone, and not before', async () => {
    const { ask } = await programInMemory();
    const shop = await ask('demo:load', {});
    const [printerId, spoolId] = [shop.printers[0]?.id ?? '', shop.spools[0]?.id ?? ''];
    const { caseId } = await ask('case:open', { ...complaint, printerId, spoolId });
    const stayed = await ask('demo:remove', {});
    const records = [
      { kind: 'printer', id: printerId, revision: stayed.printers[0]?.revision ?? 0 },
      { kind: 'spool', id: spoolId, revision: stayed.spools[0]?.revision ?? 0 },
    ] as const;
    for (const record of records)
      await expect(ask('shop:delete-record', record)).rejects.toThrow(`one case names this ${record.kind}`);
    await ask('case:delete', { caseId, revision: 1 });
    for (const record of records) await ask('shop:delete-record', record);
    expect(await ask('shop:read', {})).toMatchObject({ printers: [], spools: [], hasDemo: false });
    // The case comes back from the bin all the same, only without them.
    await ask('bin:restore', { caseId });
    expect((await ask('case:list', {})).rows).toMatchObject([{ caseId, printerLabel: null }]);
  });

  it('shows the lead what comes back: the habit built into a machine leads the list with a small exact probability', async () => {
    const { ask } = await programInMemory();
    await ask('demo:load', {});
    const { rows, caseCount } = await ask('lead:recurrence', {});
    expect(caseCount).toBeGreaterThan(80);
    expect(rows[0]).toMatchObject({ whereLabel: 'Heron', what: 'wet-filament', standing: 'stands-out' });
    expect(rows[0]?.chance).toBeLessThan(1e-3);
  });
});

describe('what does not fit', () => {
  it('is said in plain words with its place', async () => {
    const { dispatcher } = await programInMemory();
    const message = async (name: unknown, input: unknown) => {
      const reply = await dispatcher.dispatch(name, input);
      return reply.ok ? '' : reply.error.message;
    };
    expect(await message('log:read', { text: 'x'.repeat(20_000_001) })).toBe(
      'text: longer than 20,000,000 characters',
    );
    expect(await message('case:view', { caseId: 'zzz' })).toBe('caseId: not a record id');
    expect(await message('case:view', { caseId: 'zzz', more: 1 })).toContain('nobody asks for more here');
    expect(await message('case:view', {})).toBe('caseId: it is missing');
    expect(await message('case:view', { caseId: 7 })).toBe('caseId: it must be a text');
    expect(await message('photo:keep', { bytes: new Uint8Array(2_000_000) })).toBe(
      'bytes: this is larger than 1,500,000 bytes',
    );
    expect(await message('case:open', { complaints: [{ observation: 'stringing', value: [] }] })).toBe(
      'complaints › 0 › value: it is none of the kinds that it may be',
    );
    expect(
      await message('spreadsheet:import', {
        fileName: 'a',
        text: 'b',
        isDryRun: true,
        mapping: { columns: {}, dateOrder: 'none' },
      }),
    ).toBe('mapping › dateOrder: it must be one of these: "day-first" and "month-first"');
    const wrong = await dispatcher.dispatch('case:view', { caseId: 'zzz', more: 1 });
    speak('de', { 'contract.noRecordId': 'keine Nummer', 'contract.nobodyAsks': '{keys}: unbekannt' }, parse);
    expect(wrong.ok ? '' : wordsIn(wrong.error.said ?? '', '°C')).toBe(
      'caseId: keine Nummer; more: unbekannt',
    );
    speak('en', {}, parse);
    const stringing = { observation: 'stringing', value: 'slight' };
    expect(await message('case:open', { complaints: [stringing, stringing] })).toBe(
      'complaints: the same thing is named twice',
    );
    expect(
      await message('shop:save-spool', { label: 'A', polymer: 'abs', openedAt: '2099-01-01T00:00:00.000Z' }),
    ).toContain('still to come');
    expect(await message('shop:save-spool', { label: 'A', polymer: 'abs', body: 'wicker' })).toContain(
      'no spool body "wicker"',
    );
  });
});

describe('long work', () => {
  it('tells how far it is, is ended half-way, and leaves nothing behind', async () => {
    const { ask, dispatcher } = await programInMemory();
    const workId = 'abcdef0123456789';
    const loading = dispatcher.call('demo:load', { workId });
    const look = async () => (await ask('work:look', { workId })).share ?? 0;
    while ((await look()) < 0.4) await new Promise((resolve) => setImmediate(resolve));
    expect(await dispatcher.call('demo:load', { workId: 'another0' })).toMatchObject({ ok: false });
    await ask('work:stop', { workId });
    expect(await loading).toMatchObject({
      ok: false,
      error: { code: 'refused', message: expect.stringMatching(/^Stopped/) },
    });
    expect((await ask('work:look', { workId })).share).toBeNull();
    expect(await ask('shop:read', {})).toMatchObject({
      printers: [],
      spools: [],
      people: [],
      hasDemo: false,
    });
    expect((await ask('case:list', {})).total).toBe(0);
    expect((await ask('demo:load', { workId })).hasDemo).toBe(true);
  });
});

describe('two hands on the demo shop', () => {
  it('refuses to remove or load it while it is being loaded, and keeps it whole', async () => {
    const { ask, dispatcher } = await programInMemory();
    const first = dispatcher.call('demo:load', {});
    const refused = {
      ok: false,
      error: { code: 'refused', message: expect.stringContaining('at this moment') },
    };
    expect(await dispatcher.call('demo:load', {})).toMatchObject(refused);
    expect(await dispatcher.call('demo:remove', {})).toMatchObject(refused);
    expect((await first).ok).toBe(true);
    expect((await ask('shop:read', {})).hasDemo).toBe(true);
    expect((await ask('demo:remove', {})).hasDemo).toBe(false);
    expect((await ask('case:list', {})).total).toBe(0);
  });
});

describe('a practice case', () => {
  it('is the same for the same seed, hides the cause until it is named, and scores it', async () => {
    const { ask } = await programInMemory();
    const start = await ask('training:view', { seed: 12, actions: [] });
    expect(start).toEqual(await ask('training:view', { seed: 12, actions: [] }));
    expect(start.score).toBeNull();
    expect(start.story.complaints.length).toBeGreaterThan(0);
    const check = start.checks[0]?.observation ?? '';
    await expect(ask('training:view', { seed: 12, family: 'weather', actions: [] })).rejects.toThrow(
      'no family of causes "weather"',
    );
    await expect(ask('training:view', { seed: 12, focus: 'wet-filamnt', actions: [] })).rejects.toThrow(
      'no cause "wet-filamnt"; did you mean "wet-filament"?',
    );
    const wrong = await ask('training:view', {
      seed: 12,
      actions: [
        { kind: 'check', observation: check },
        { kind: 'name-cause', cause: 'cause-not-in-guide' },
      ],
    });
    expect(wrong.done).toHaveLength(2);
    expect(wrong.score?.isCauseRight).toBe(false);
    // Of a wrong cause only what does not hang on it counts: nothing that could hurt was done without reading.
    expect(wrong.score?.points).toBeLessThanOrEqual(10);
    const truth = wrong.score?.trueCauses[0]?.cause ?? '';
    const right = await ask('training:view', { seed: 12, actions: [{ kind: 'name-cause', cause: truth }] });
    expect(right.score?.isCauseRight).toBe(true);
    expect(right.score?.points).toBeGreaterThanOrEqual(40);
    expect(right.score?.planner.steps.length).toBeGreaterThan(0);
  });
});
