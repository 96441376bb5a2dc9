import { inEnglish } from '../../src-core/words/in-english.ts';
import { describe, expect, it } from 'vitest';
import { programInMemory, type TestProgram } from './program-in-memory.ts';

const complaint = { complaints: [{ observation: 'popping-while-loading', value: 'heavy' }] };

/** A line of an export, open to be spoilt. */
interface ExportedLine {
  readonly printer: { conditions: Record<string, unknown> };
  readonly spool: { polymer: string; openedAt: string };
  readonly events: { seq: number; at: string; event?: unknown; unreadable?: string }[];
}

/** All pages of an export. */
async function exportAll({ ask }: TestProgram, caseIds: string[] | null = null) {
  const pages = [];
  let after: string | null = null;
  do {
    const page: Awaited<ReturnType<typeof ask<'case:export'>>> = await ask('case:export', { caseIds, after });
    pages.push(page);
    after = page.next;
  } while (after !== null);
  return { pages, jsonLines: pages.map((page) => page.jsonLines).join('') };
}

async function withNotes(test: TestProgram, notes: number) {
  const { caseId } = await test.ask('case:open', complaint);
  for (let note = 0; note < notes; note++)
    await test.ask('case:send', {
      caseId,
      revision: note + 1,
      event: { kind: 'noted', text: `Note ${note}` },
    });
  return caseId;
}

function spoil(test: TestProgram, caseId: string, seq: number, json: string) {
  return test.program.casebook.db
    .updateTable('case_events')
    .set({ event_json: json })
    .where('case_id', '=', caseId)
    .where('seq', '=', seq)
    .execute();
}

describe('attack 8: an entry that cannot be read', () => {
  it.each([
    ['damaged', '{"kind":"noted","te'],
    ['of a version to come', '{"kind":"weighed-by-drone","grams":3}'],
  ])('%s: is named in its case, which goes on; nothing else is touched', async (_what, json) => {
    const test = await programInMemory();
    const caseId = await withNotes(test, 3);
    const other = await withNotes(test, 1);
    await spoil(test, caseId, 3, json);
    const view = await test.ask('case:view', { caseId });
    expect(view.revision).toBe(4);
    expect(view.trail.map(({ text }) => inEnglish(text)).join()).toMatch(
      /Entry 3 cannot be read and was set aside/,
    );
    const sent = await test.ask('case:send', {
      caseId,
      revision: 4,
      event: { kind: 'danger-answered', present: [] },
    });
    expect([sent.revision, sent.state]).toEqual([5, 'checking']);
    expect((await test.ask('case:timeline', { caseId })).steps).toHaveLength(5);
    expect((await test.ask('case:view', { caseId: other })).revision).toBe(2);
    const stored = await test.program.casebook.db
      .selectFrom('case_events')
      .select('event_json')
      .where('case_id', '=', caseId)
      .where('seq', '=', 3)
      .executeTakeFirst();
    expect(stored?.event_json).toBe(json);
  });

  it('as the first of a case: that case is said to be unreadable, the list and the others are not', async () => {
    const test = await programInMemory();
    const caseId = await withNotes(test, 1);
    await withNotes(test, 1);
    await spoil(test, caseId, 1, 'not JSON');
    await expect(test.ask('case:view', { caseId })).rejects.toThrow(
      /first entry of this case cannot be read/,
    );
    expect((await test.ask('case:list', {})).total).toBe(2);
  });

  it('leaves with an export as it is, named, and comes back in with an import', async () => {
    const from = await programInMemory();
    const caseId = await withNotes(from, 3);
    await withNotes(from, 0);
    await spoil(from, caseId, 3, '{"kind":"of-tomorrow"}');
    const { pages, jsonLines } = await exportAll(from);
    expect(pages[0]).toMatchObject({ count: 2, setAside: [{ number: 1, seq: 3 }] });
    const to = await programInMemory();
    expect(await to.ask('case:import', { jsonLines })).toEqual({ imported: 2, known: 0, faults: [] });
    expect((await exportAll(to)).jsonLines).toBe(jsonLines);
  });
});

describe('attack 11: an export of any size', () => {
  it('comes in pages that together are the whole, each of which can be imported', async () => {
    const from = await programInMemory();
    const { db } = from.program.casebook;
    const text = 'x'.repeat(1900);
    const caseIds = [];
    for (let one = 0; one < 4; one++) caseIds.push(await withNotes(from, 0));
    for (const case_id of caseIds) {
      const rows = Array.from({ length: 900 }, (_, index) => ({
        case_id,
        seq: index + 2,
        at: '2026-03-02T08:00:00.000Z',
        event_json: JSON.stringify({ kind: 'noted', text }),
        knowledge_version: 'v',
        engine_version: 'v',
      }));
      await db.insertInto('case_events').values(rows).execute();
    }
    const { pages } = await exportAll(from);
    expect(pages.map(({ count }) => count)).toEqual([3, 1]);
    const to = await programInMemory();
    for (const { jsonLines } of pages.toReversed())
      expect((await to.ask('case:import', { jsonLines })).faults).toEqual([]);
    expect((await to.ask('case:list', {})).total).toBe(4);
    const some = await exportAll(from, caseIds.slice(1, 3));
    expect(some.jsonLines.trim().split('\n')).toHaveLength(2);
  });
});

describe('A10, attack, low: an import passes the checks of saving', () => {
  async function lineWith(change: (line: ExportedLine) => void) {
    const from = await programInMemory();
    const shop = await from.ask('shop:save-printer', {
      label: 'Heron',
      conditions: { 'nozzle-mm': 0.4 },
      printHours: 10,
    });
    const withSpool = await from.ask('shop:save-spool', { label: 'A-1', polymer: 'abs' });
    await from.ask('case:open', {
      ...complaint,
      printerId: shop.printers[0]?.id ?? null,
      spoolId: withSpool.spools[0]?.id ?? null,
    });
    const { jsonLines } = await exportAll(from);
    const line = JSON.parse(jsonLines) as ExportedLine;
    change(line);
    return JSON.stringify(line);
  }

  it.each([
    ['a nozzle that there is not', (line) => (line.printer.conditions['nozzle-mm'] = 99), 'nozzle'],
    [
      'a condition that the guide does not know',
      (line) => (line.printer.conditions['colour'] = 'red'),
      'colour',
    ],
    [
      'a polymer named like a part of the language',
      (line) => (line.spool.polymer = 'constructor'),
      'constructor',
    ],
    ['a spool opened in the year 26', (line) => (line.spool.openedAt = '0026-01-01T00:00:00Z'), 'year 0026'],
    [
      'an event of the year 0',
      (line) => (line.events[0] = { ...at(line), at: '0000-01-01T00:00:00Z', event: line.events[0]?.event }),
      'year 0000',
    ],
    ['an unreadable first event', (line) => (line.events[0] = { ...at(line), unreadable: '{' }), 'opened'],
  ] as [string, (line: ExportedLine) => void, string][])(
    '%s is refused, with nothing written',
    async (_what, change, words) => {
      const to = await programInMemory();
      const report = await to.ask('case:import', { jsonLines: await lineWith(change) });
      expect(report.imported).toBe(0);
      expect(inEnglish(report.faults[0]?.message ?? [])).toContain(words);
      const shop = await to.ask('shop:read', {});
      expect([shop.printers, shop.spools]).toEqual([[], []]);
    },
  );

  it('a case that does not fit leaves no printer behind', async () => {
    const to = await programInMemory();
    const jsonLines = await lineWith((line) =>
      line.events.push({ ...at(line), seq: 2, event: { kind: 'remedy-done' } }),
    );
    const report = await to.ask('case:import', { jsonLines });
    expect(inEnglish(report.faults[0]?.message ?? [])).toContain('event 2');
    expect((await to.ask('shop:read', {})).printers).toEqual([]);
  });

  it('a printer of a name that is taken gets a number, and both can be told apart', async () => {
    const to = await programInMemory();
    await to.ask('shop:save-printer', { label: 'heron', conditions: {}, printHours: 1 });
    await to.ask('case:import', { jsonLines: await lineWith(() => undefined) });
    const labels = (await to.ask('shop:read', {})).printers.map(({ label }) => label);
    expect(labels.toSorted()).toEqual(['Heron (2)', 'heron']);
  });

  it('the same file from two screens at once comes in once', async () => {
    const to = await programInMemory();
    const jsonLines = await lineWith(() => undefined);
    const both = await Promise.all([
      to.ask('case:import', { jsonLines }),
      to.ask('case:import', { jsonLines }),
    ]);
    expect(both.map(({ imported }) => imported).sort()).toEqual([0, 1]);
    expect((await to.ask('case:list', {})).total).toBe(1);
  });
});

it('an import is tried first: what would come in and what not, by line; nothing is written', async () => {
  const from = await programInMemory();
  await from.ask('case:open', { complaints: [{ observation: 'stringing', value: 'slight' }] });
  const { jsonLines } = await from.ask('case:export', {});
  const to = await programInMemory();
  const file = `${jsonLines}no JSON\n${jsonLines}`;
  const tried = await to.ask('case:import', { jsonLines: file, isDryRun: true });
  expect(tried).toMatchObject({ imported: 1, known: 1, faults: [{ line: 2 }] });
  expect((await to.ask('case:list', {})).total).toBe(0);
  expect(await to.ask('case:import', { jsonLines: file })).toEqual(tried);
  expect((await to.ask('case:list', {})).total).toBe(1);
});

describe('A11: names are joined, not frozen', () => {
  it('a renamed printer and spool find their cases', async () => {
    const { ask } = await programInMemory();
    const printer = { label: 'Heron', conditions: {}, printHours: 1 };
    const printerId = (await ask('shop:save-printer', printer)).printers[0]?.id ?? '';
    const spoolId = (await ask('shop:save-spool', { label: 'A-1', polymer: 'abs' })).spools[0]?.id ?? '';
    await ask('case:open', { ...complaint, printerId, spoolId });
    await ask('case:open', complaint);
    await ask('shop:save-printer', { ...printer, id: printerId, revision: 1, label: 'Östlicher Falke' });
    await ask('shop:save-spool', { id: spoolId, revision: 1, label: 'Rack 7', polymer: 'abs' });
    const found = async (search: string) =>
      (await ask('case:list', { search })).rows.map(({ number }) => number);
    expect(await found('östlicher')).toEqual([1]);
    expect(await found('falke popping')).toEqual([1]);
    expect(await found('rack 7')).toEqual([1]);
    expect(await found('heron')).toEqual([]);
  });
});

describe('counts of the list', () => {
  it('come with the page, state by state, whatever states are asked for', async () => {
    const { ask } = await programInMemory();
    for (let one = 0; one < 3; one++) await ask('case:open', complaint);
    const { caseId } = await ask('case:open', complaint);
    await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
    expect(await ask('case:list', { states: ['checking'] })).toMatchObject({
      total: 1,
      byState: { 'stop-now': 3, checking: 1 },
    });
    expect((await ask('case:list', {})).total).toBe(4);
  });
});

function at({ events }: ExportedLine) {
  return { seq: events[0]?.seq ?? 0, at: events[0]?.at ?? '' };
}
