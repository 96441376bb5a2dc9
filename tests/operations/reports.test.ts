import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { csvParseRows } from 'd3-dsv';
import { describe, expect, it } from 'vitest';
import { REPORT_TABLES, type ReportKind } from '../../src-core/contract/report-choices.ts';
import type { ReportSubject } from '../../src-core/contract/report-view.ts';
import { documentHtml } from '../../src-core/reports/document-html.ts';
import { tableCsv, tableJsonLines } from '../../src-core/reports/table-text.ts';
import { english } from '../../src-core/words/in-english.ts';
import { jpeg } from '../photos/jpeg.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { programInMemory } from './program-in-memory.ts';

const complaints = [{ observation: 'stringing', value: 'slight' }];
const NASTY = '<img src=x onerror=alert(1)> & "quotes"';

async function shopWithACase(options: Parameters<typeof programInMemory>[0] = {}) {
  const test = await programInMemory(options);
  const { ask } = test;
  const { printers } = await ask('shop:save-printer', {
    label: 'Heron <b>',
    conditions: {},
    printHours: 100,
  });
  const printerId = printers[0]?.id ?? '';
  const { caseId } = await ask('case:open', { printerId, complaints, openedBy: 'JO', words: NASTY });
  await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
  const { photo } = await ask('photo:keep', { base64: jpeg().toString('base64') });
  await ask('case:send', {
    caseId,
    revision: 2,
    event: { kind: 'photographed', photo, note: 'the strings' },
  });
  await ask('case:send', {
    caseId,
    revision: 3,
    event: {
      kind: 'closed',
      causes: [{ cause: 'wet-filament' }],
      practice: null,
      minutesLost: 95,
      gramsScrapped: 40,
      note: '=2+5',
    },
  });
  await ask('maintenance:log', {
    printerId,
    event: { kind: 'done', task: 'check-belts', by: 'JO' },
    revision: 0,
  });
  const subjects: Readonly<Record<ReportKind, ReportSubject>> = {
    case: { kind: 'case', caseId },
    month: { kind: 'month', month: '2026-03' },
    printer: { kind: 'printer', printerId },
    'guide-use': { kind: 'guide-use' },
  };
  return { ...test, subjects, caseId, printerId };
}

describe('a report', () => {
  it('is one file that needs nothing beside it, and in which no text becomes anything but text', async () => {
    const { ask, subjects } = await shopWithACase();
    for (const about of Object.values(subjects)) {
      const { text, fileName } = await ask('report:make', { about, form: { kind: 'document' } });
      expect(fileName).toMatch(/^beadwright-(case-1|month-2026-03|printer-heron-b|guide-in-use)\.html$/);
      expect(text).not.toMatch(/<script|<link|<iframe|https?:|onerror=(?!alert\(1\)&gt;)/);
      expect(text).not.toContain('<b>');
      for (const source of text.matchAll(/src="([^"]*)"/g))
        expect(source[1]).toMatch(/^data:image\/jpeg;base64,/);
    }
    const whole = await ask('report:make', { about: subjects.case, form: { kind: 'document' } });
    expect(whole.text).toContain('&lt;img src=x onerror=alert(1)&gt; &amp; &quot;quotes&quot;');
    expect(whole.text).toContain('<figcaption>');
    expect(whole.text).toContain('1 h 35 min, 40 g of filament');
    expect(whole.text).toContain('Wet filament');
  });

  it('has every table that is offered, as CSV and as JSON Lines that agree', async () => {
    const { ask, subjects } = await shopWithACase();
    for (const kind of Object.keys(REPORT_TABLES) as ReportKind[])
      for (const table of Object.keys(REPORT_TABLES[kind])) {
        const about = subjects[kind];
        const csv = await ask('report:make', { about, form: { kind: 'csv', table } });
        const lines = await ask('report:make', { about, form: { kind: 'json-lines', table } });
        const [head = [], ...rows] = csvParseRows(csv.text.replace('\ufeff', ''));
        const objects = lines.text
          .split('\n')
          .filter(Boolean)
          .map((line) => JSON.parse(line) as Record<string, string | number | null>);
        expect(rows.length, `${kind} ${table}`).toBe(objects.length);
        for (const [i, row] of rows.entries())
          expect(row.map((cell) => cell.replace(/^'(?==)/, ''))).toEqual(
            head.map((key) => String(objects[i]?.[key] ?? '')),
          );
      }
    await expect(
      ask('report:make', { about: subjects.case, form: { kind: 'csv', table: 'readings' } }),
    ).rejects.toThrow('has no table "readings"');
  });

  it('of a month holds what was opened in it by the shop’s calendar, and nothing else', async () => {
    const { ask, subjects } = await shopWithACase();
    const cases = async (month: string) => {
      const { text } = await ask('report:make', {
        about: { kind: 'month', month },
        form: { kind: 'json-lines', table: 'cases' },
      });
      return text.split('\n').filter(Boolean).length;
    };
    expect([await cases('2026-02'), await cases('2026-03'), await cases('2026-04')]).toEqual([0, 1, 0]);
    const done = await ask('report:make', {
      about: subjects.month,
      form: { kind: 'csv', table: 'maintenance' },
    });
    expect(done.text).toContain('Check the belts,,JO');
    const missing = { kind: 'printer', printerId: '01ARZ3NDEKTSV4RRFFQ69G5FAV' } as const;
    await expect(ask('report:make', { about: missing, form: { kind: 'document' } })).rejects.toThrow(
      'not in the shop',
    );
  });

  it('a cell that a spreadsheet would run comes as text, figures stay figures', () => {
    const table = {
      name: 't',
      columns: [
        { key: 'what', label: 'What' },
        { key: 'amount', label: 'Amount', isFigure: true },
      ],
      rows: [
        ['=HYPERLINK("x")', -3],
        ['two\nlines, and "quotes"', null],
      ],
    };
    expect(tableCsv(table)).toBe(
      '\ufeffwhat,amount\r\n"\'=HYPERLINK(""x"")",-3\r\n"two lines, and ""quotes""",\r\n',
    );
    expect(tableJsonLines(table).split('\n')[0]).toBe('{"what":"=HYPERLINK(\\"x\\")","amount":-3}');
    const html = documentHtml(
      { title: 'T', subtitle: 'S', facts: [], sections: [{ heading: 'H', table }], footer: 'F' },
      english,
      'en-GB',
    );
    expect(html).toContain('<td class="figure">-3</td>');
  });
});

describe('a report in the language of its reader', () => {
  const texts = {
    'documents.caseNumber': 'Fall {number}',
    'documents.opened': 'Eröffnet',
    'documents.stepByStep': 'Schritt für Schritt',
    'documents.lostTimeAndFilament': '{time}, {grams} g Filament',
    'caseLog.closed': 'Abgeschlossen: {causes}',
    'caseLog.conditionSet': '{condition} = {value}',
    'temperatures.fahrenheit': '{value} Grad F',
  };

  async function german() {
    const folder = temporaryFolder();
    writeFileSync(path.join(folder, 'de.json'), JSON.stringify(texts));
    return shopWithACase({ languagesFolder: folder });
  }

  it('is said by the file of that language, English where that has nothing, with its tag', async () => {
    const { ask, subjects } = await german();
    const asked = { about: subjects.case, form: { kind: 'document' } } as const;
    const { text } = await ask('report:make', {
      ...asked,
      reader: { language: 'de', temperatureUnit: '°C' },
    });
    expect(text).toContain('<html lang="de">');
    expect(text).toContain('<h1>Fall 1</h1>');
    expect(text).toContain('<dt>Eröffnet</dt><dd>2. März 2026');
    expect(text).toContain('1 h 35 min, 40 g Filament');
    expect(text).toContain('<h2>Schritt für Schritt</h2>');
    expect(text).toContain('Abgeschlossen: ');
    expect(text).toContain('<dt>Printer</dt>');
    expect(text).not.toMatch(/Step by step|Closed: /);
    const { text: english } = await ask('report:make', asked);
    expect(english).toContain('<html lang="en-GB">');
    expect(english).toContain('<h1>Case 1</h1>');
    const { text: polish } = await ask('report:make', {
      ...asked,
      reader: { language: 'pl', temperatureUnit: '°C' },
    });
    expect(polish).toBe(english);
    await expect(
      ask('report:make', { ...asked, reader: { language: '../de', temperatureUnit: '°C' } }),
    ).rejects.toThrow('bad-request');
  });

  it('has temperatures in the reader’s unit; tables, which are for programs, stay English and °C', async () => {
    const { ask, printerId } = await german();
    const { caseId } = await ask('case:open', { printerId, complaints, openedBy: 'JO', words: '' });
    await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
    await ask('case:send', {
      caseId,
      revision: 2,
      event: { kind: 'condition-set', condition: 'nozzle-temperature', value: 210 },
    });
    const about = { kind: 'case', caseId } as const;
    const reader = { language: 'de', temperatureUnit: '°F' } as const;
    const { text } = await ask('report:make', { about, form: { kind: 'document' }, reader });
    expect(text).toContain(' = 410 Grad F');
    expect(text).toContain('<td>410 Grad F</td>');
    const { text: csv } = await ask('report:make', { about, form: { kind: 'csv', table: 'steps' }, reader });
    expect(csv).toContain(': 210 °C');
    expect(csv).not.toContain('Grad');
  });
});

it('as PDF only where a window makes it: a browser is told how it does that itself, and a cancelled dialog writes nothing', async () => {
  const { program, ask } = await shopWithACase();
  const month = { kind: 'report', about: { kind: 'month', month: '2026-03' } } as const;
  await expect(ask('report:save-pdf', { what: month, paper: 'A4' })).rejects.toThrow(
    'A browser makes a PDF by itself',
  );
  const asked: unknown[] = [];
  program.paper.connect({
    askWhere: (fileName) => {
      asked.push(fileName);
      return Promise.resolve(null);
    },
    toPdf: (html, size) => {
      asked.push([html, size]);
      return Promise.resolve(new Uint8Array());
    },
  });
  expect(await ask('report:save-pdf', { what: month, paper: 'A4' })).toEqual({ file: null });
  expect(asked).toEqual(['beadwright-month-2026-03.pdf']);
});
