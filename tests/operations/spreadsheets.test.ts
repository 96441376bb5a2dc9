import { speak } from '../../src-renderer/messages/language.ts';
import { parse } from '../../src-renderer/messages/parse-pattern.ts';
import { wordsIn } from '../../src-renderer/wording/words-in.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { describe, expect, it } from 'vitest';
import type { InputOf } from '../../src-core/contract/calls.ts';
import { programInMemory } from './program-in-memory.ts';

const HEAD = 'No,Date,Machine,Problem,Root cause,Minutes,Scrap g,Comment\n';
const GOOD = [
  '1,2026-01-05,Heron,Stringing,Wet filament,45,12,dried it\n',
  '2,06/01/2026,heron,stringing,wet filament,30,,\n',
].join('');
const BAD = [
  '3,31/02/2026,Heron,Stringing,Wet filament,5,,\n',
  '4,2026-01-08,Nobody,Stringing,Wet filament,5,,\n',
  '5,2026-01-09,Heron,Spaghetti everywhere,Gremlins,"1,200",,\n',
  '6,2026-01-10,Heron,Stringing,,5,,\n',
  '7,2099-01-10,Heron,Stringing,Wet filament,5,,\n',
].join('');
const columns = {
  reference: 'No',
  opened: 'Date',
  printer: 'Machine',
  complaint: 'Problem',
  cause: 'Root cause',
  lost: 'Minutes',
  grams: 'Scrap g',
  note: 'Comment',
};

async function shop() {
  const test = await programInMemory();
  await test.ask('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 100 });
  const run = (
    text: string,
    isDryRun: boolean,
    words: Partial<InputOf<'spreadsheet:import'>['mapping']> = {},
  ) =>
    test.ask('spreadsheet:import', { fileName: 'old.csv', text, mapping: { columns, ...words }, isDryRun });
  const total = async () => (await test.ask('case:list', {})).total;
  return { ...test, run, total };
}

describe('a spreadsheet of old cases', () => {
  it('is tried first: what would come in, what not, by line and with the reason; nothing is written', async () => {
    const { run, total, ask } = await shop();
    const report = await run(HEAD + GOOD + BAD, true);
    expect(report).toMatchObject({ fresh: 2, known: 0, importId: null });
    expect(report.faults.map(({ line }) => line)).toEqual([4, 5, 6, 7, 8]);
    const [noDay, noPrinter, noWords, noCause, toCome] = report.faults.map(({ message }) =>
      inEnglish(message),
    );
    expect(noDay).toMatch('no day of the calendar');
    expect(noPrinter).toMatch('no printer "Nobody"');
    // Everything that is wrong with a row is said at once.
    expect(noWords).toMatch(/Spaghetti everywhere.*Gremlins.*two ways/);
    expect(noCause).toBe('the cause is missing');
    expect(toCome).toMatch('still to come');
    expect(report.unknownWords.map(({ field, text, count }) => [field, text, count])).toEqual([
      ['complaint', 'Spaghetti everywhere', 1],
      ['cause', 'Gremlins', 1],
    ]);
    expect(report.preview[0]).toMatchObject({
      line: 2,
      printer: 'Heron',
      complaint: 'Stringing',
      cause: 'Wet filament',
      minutesLost: 45,
    });
    expect(await total()).toBe(0);
    expect((await ask('spreadsheet:imports', {})).imports).toEqual([]);
  });

  it('comes in without its bad rows, and the same rows never come in twice', async () => {
    const { run, total, ask } = await shop();
    const first = await run(HEAD + GOOD + BAD, false);
    expect(first).toMatchObject({ fresh: 2, known: 0 });
    expect(first.faults.length).toBe(5);
    expect(await total()).toBe(2);
    const { rows } = await ask('case:list', { order: 'oldest' });
    expect(rows[0]).toMatchObject({
      state: 'closed',
      printerLabel: 'Heron',
      complaint: 'Stringing',
      causeLabel: 'Wet filament',
      isConfirmed: true,
      minutesLost: 45,
      gramsScrapped: 12,
    });
    // The mended row comes in, the others are known.
    const mended = await run(HEAD + GOOD + BAD.replace('31/02/2026', '28/02/2026'), false);
    expect(mended).toMatchObject({ fresh: 1, known: 2 });
    expect(await total()).toBe(3);
    // A case is whole: it can be looked at, taken up again and counts in what comes back.
    const view = await ask('case:view', { caseId: rows[0]?.caseId ?? '' });
    expect(view.closing?.note).toBe('dried it');
    const found = await ask('lead:recurrence', {});
    expect(found.causes.map(({ label, count }) => [label, count])).toEqual([['Wet filament', 3]]);
  });

  it('takes words that the shop has explained, and remembers them with the columns', async () => {
    const { run, ask } = await shop();
    const words = {
      complaints: { 'spaghetti everywhere': 'stringing' },
      causes: { gremlins: null },
      lostUnit: 'hours' as const,
    };
    const text = HEAD + '9,2026-01-09,Heron,Spaghetti everywhere,Gremlins,1.5,,\n';
    expect(await run(text, false, words)).toMatchObject({ fresh: 1, faults: [] });
    const { rows } = await ask('case:list', {});
    expect(rows[0]).toMatchObject({ complaint: 'Stringing', causeLabel: 'Gremlins', minutesLost: 90 });
    const look = await ask('spreadsheet:look', { fileName: 'next.csv', text });
    expect(look).toMatchObject({ isRemembered: true, rowCount: 1 });
    expect(look.mapping).toMatchObject({ columns, ...words });
    // Another file: its columns are guessed, the words still count.
    const other = await ask('spreadsheet:look', {
      fileName: 'other.csv',
      text: 'When,Fault\n2026-01-01,x\n',
    });
    expect(other).toMatchObject({
      isRemembered: false,
      mapping: { columns: { opened: 'When', complaint: 'Fault' } },
    });
    expect(other.mapping.causes).toEqual({ gremlins: null });
  });

  it('is taken back as a whole, but for a case that somebody has worked on since', async () => {
    const { run, ask, total } = await shop();
    const { importId } = await run(HEAD + GOOD, false);
    const { rows } = await ask('case:list', { order: 'oldest' });
    await ask('case:send', {
      caseId: rows[0]?.caseId ?? '',
      revision: 3,
      event: { kind: 'noted', text: 'looked at it again' },
    });
    const undone = await ask('spreadsheet:undo', { importId: importId ?? '' });
    expect(undone).toMatchObject({ removed: 1, kept: 1, imports: [] });
    expect(await total()).toBe(1);
    // It can come in again: what was kept is known.
    expect(await run(HEAD + GOOD, false)).toMatchObject({ fresh: 1, known: 1 });
  });

  it('refuses what is no table, and a column that the file does not have', async () => {
    const { ask, run } = await shop();
    await expect(ask('spreadsheet:look', { fileName: 'x.csv', text: 'hello' })).rejects.toThrow('no table');
    await expect(run('Date,Problem\n1,2\n', true)).rejects.toThrow('no column "No"');
  });

  it('says what is wrong with a row in the reader’s language, however long the cell, and knows a column without a name by its place', async () => {
    const { ask } = await shop();
    const text = `Date,Fault,Cause,\n${'x'.repeat(5000)},Stringing,Wet filament,-3\n`;
    const look = await ask('spreadsheet:look', { fileName: 'x.csv', text });
    expect(look.columns.map(({ place }) => place)).toEqual([null, null, null, 4]);
    const columns = { opened: 'Date', complaint: 'Fault', cause: 'Cause', lost: 'Column 4' };
    const report = await ask('spreadsheet:import', {
      fileName: 'x.csv',
      text,
      mapping: { columns },
      isDryRun: true,
    });
    const message = report.faults[0]?.message ?? [];
    expect(inEnglish(message)).toMatch(/^"x{80}…" is no date: .*; "-3" is no number from 0$/);
    speak('de', { 'importFaults.noAmount': 'keine Zahl: {text}' }, parse);
    expect(wordsIn(message, '°C')).toMatch(/; keine Zahl: -3$/);
    speak('en', {}, parse);
  });

  it('a name in the place of initials is refused, as the casebook holds none', async () => {
    const { ask } = await shop();
    const report = await ask('spreadsheet:import', {
      fileName: 'x.csv',
      text: 'Date,Fault,Cause,Who\n2026-01-05,Stringing,Wet filament,Johanna\n',
      mapping: { columns: { opened: 'Date', complaint: 'Fault', cause: 'Cause', openedBy: 'Who' } },
      isDryRun: true,
    });
    expect(inEnglish(report.faults[0]?.message ?? [])).toMatch('no initials');
  });
});
