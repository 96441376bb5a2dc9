import { mkdirSync, statSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import type { CallName } from '../../../src-core/contract/call-names.ts';
import type { InputOf, OutputOf } from '../../../src-core/contract/calls.ts';
import { programVersion } from '../../../src-main/bootstrap/program-files.ts';
import { FileCasebook } from '../../../src-main/casebook/file-casebook.ts';
import { readKnowledge } from '../../../src-main/knowledge/read-knowledge.ts';
import { createApplicationContext } from '../../../src-main/operations/application-context.ts';
import { createDispatcher } from '../../../src-main/operations/dispatcher.ts';
import { handlers } from '../../../src-main/operations/handlers.ts';
import { reasonerInThisThread } from '../../../src-main/reasoning/reasoner.ts';
import { createWordBook } from '../../../src-core/words/word-book.ts';
import { inOtherWords } from '../../../src-core/words/in-other-words.ts';
import { ftsOf } from '../../../src-main/casebook/search/fts-expression.ts';
import { listClosedCauses } from '../../../src-main/casebook/case-list.repository.ts';
import { buildCasebook } from './million.ts';

/**
 * `npm run bench -- casebook [CASES]`: what a lead asks of a casebook of a million cases, whole calls through the gate, beside the
 * least SQL that answers the same on the same file. The file is built once and kept in the system's temporary folder.
 */
export async function benchCasebook(cases: number): Promise<void> {
  const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
  const knowledge = readKnowledge(root, programVersion(root));
  const folder = path.join(os.tmpdir(), 'beadwright-bench');
  mkdirSync(folder, { recursive: true });
  const file = path.join(folder, `casebook-${cases}.sqlite`);
  await buildCasebook(file, cases, knowledge, console.log);
  console.log(
    `${cases.toLocaleString('en-GB')} cases, ${Math.round(statSync(file).size / 1e6)} MB in ${file}`,
  );
  const now = () => new Date('2026-11-01T00:00:00.000Z');
  const casebook = new FileCasebook(file, now, { makesBackups: false });
  const opening = performance.now();
  await casebook.open();
  if (!casebook.isOpen) throw new Error(casebook.problem);
  console.log(`opened in ${Math.round(performance.now() - opening)} ms`);
  const program = createApplicationContext({
    host: 'station',
    programVersion: '0.0.0-bench',
    engineVersion: 'bench',
    knowledge,
    reasoner: reasonerInThisThread(knowledge),
    casebook,
    resourcesFolder: path.join(root, 'resources'),
    now,
  });
  const dispatcher = createDispatcher(program, handlers, 'station');
  const ask = async <N extends CallName>(name: N, input: InputOf<N>): Promise<OutputOf<N>> => {
    const reply = await dispatcher.call(name, input);
    if (!reply.ok) throw new Error(reply.error.message);
    return reply.value;
  };
  const plain = new Database(file, { readonly: true });
  const list = (input: InputOf<'case:list'>) => async () => {
    const { total, isMore } = await ask('case:list', input);
    return `${isMore ? 'over ' : ''}${total}`;
  };
  const sqlOf = (...statements: readonly string[]) => {
    const prepared = statements.map((one) => plain.prepare(one));
    return () => prepared.map((one) => one.all());
  };
  const page = `select * from cases order by opened_at desc limit 50`;
  const tabs = `select state, count(*) from cases group by state`;
  const searched = (words: string, isDown = 'desc') =>
    `select cases.* from (select rowid as position from case_search where case_search match '${words}' order by rowid ${isDown} limit 50) hits
     cross join cases on ${POSITION} = hits.position`;
  const counted = (words: string) =>
    `select count(*) from (select 1 from case_search where case_search match '${words}' limit 10001)
     union all select count(*) from case_search where case_search match '(${words}) AND marks : open'`;

  console.log('\nthe list');
  await compare('first page', list({}), sqlOf(page, tabs));
  await compare(
    'closed cases, page 100',
    list({ states: ['closed'], offset: 5000 }),
    sqlOf(`select * from cases where state = 'closed' order by opened_at desc limit 50 offset 5000`, tabs),
  );
  await compare(
    'last page',
    list({ offset: cases - 50 }),
    sqlOf(`select * from cases order by opened_at desc limit 50 offset ${cases - 50}`, tabs),
  );
  const printerId = 'P0000000000000000000000003'.slice(0, 26);
  await compare(
    'of one printer',
    list({ printerId }),
    sqlOf(
      `select * from cases where printer_id = '${printerId}' order by opened_at desc limit 50`,
      `select state, count(*) from cases where printer_id = '${printerId}' group by state`,
    ),
  );
  const cause = [...knowledge.causes.keys()][0] ?? '';
  await compare(
    'of one cause',
    list({ cause }),
    sqlOf(
      `select cases.* from cases where id in (select case_id from case_causes where cause = '${cause}') order by opened_at desc limit 50`,
      `select state, count(*) from cases where id in (select case_id from case_causes where cause = '${cause}') group by state`,
    ),
  );
  await compare(
    'of a year',
    list({ openedFrom: '2025-01-01T00:00:00.000Z', openedTo: '2026-01-01T00:00:00.000Z' }),
    sqlOf(
      `select * from cases where opened_at >= '2025-01-01' and opened_at < '2026-01-01' order by opened_at desc limit 50`,
      `select state, count(*) from cases where opened_at >= '2025-01-01' and opened_at < '2026-01-01' group by state`,
    ),
  );
  for (const [order, by] of [
    ['costliest', 'minutes_lost desc'],
    ['complaint-up', 'complaint'],
    ['cause-down', 'cause_label desc'],
    ['state-up', 'state'],
    ['by-up', 'opened_by'],
    ['closed-down', 'closed_at desc'],
  ] as const)
    await compare(`by ${order}`, list({ order }), sqlOf(`select * from cases order by ${by} limit 50`, tabs));
  for (const [order, table] of [
    ['printer-up', 'printer'],
    ['spool-down', 'spool'],
  ] as const)
    await compare(
      `by ${order}`,
      list({ order }),
      sqlOf(
        `select cases.* from cases left join ${table}s on ${table}s.id = cases.${table}_id order by ${table}s.label ${order.endsWith('down') ? 'desc' : ''} limit 50`,
        tabs,
      ),
    );

  console.log('\nsearch as you type (the least SQL is given the same words)');
  const book = createWordBook(knowledge.words);
  const typedLetters = Array.from('stringing', (_, at) => 'stringing'.slice(0, at + 1));
  const searches: readonly InputOf<'case:list'>[] = [
    ...typedLetters.map((search) => ({ search })),
    { search: 'layer' },
    { search: 'heron stringing' },
    { search: 'asa 4403' },
    { search: '#777777' },
    { search: 'stringing', printerId },
    { search: 'customer nozzle', order: 'oldest' },
    { search: 'customer nozzle', order: 'costliest' },
  ];
  for (const input of searches) {
    const printers = plain.prepare<[], { id: string; label: string }>('select id, label from printers').all();
    const sought = inOtherWords(input.search ?? '', book).map((texts) => ({
      texts,
      number: /^#\d+$/.test(texts[0] ?? '') ? Number(texts[0]?.slice(1)) : null,
      printerIds: printers.flatMap(({ id, label }) =>
        texts.some((text) => label.toLowerCase().includes(text)) ? [id] : [],
      ),
    }));
    const words =
      `${ftsOf(sought) ?? ''}${input.printerId ? ` AND marks : p${input.printerId}` : ''}`.replaceAll(
        "'",
        "''",
      );
    await compare(
      JSON.stringify(input).slice(1, -1),
      list(input),
      input.order === 'costliest'
        ? sqlOf(
            `select cases.* from case_search cross join cases on ${POSITION} = case_search.rowid
             where case_search match '${words}' order by minutes_lost desc limit 50`,
            counted(words),
          )
        : sqlOf(searched(words, input.order === 'oldest' ? 'asc' : 'desc'), counted(words)),
    );
  }

  console.log('\nwhat comes back');
  for (const [what, fromDay] of [
    ['a year', '2025-11-01'],
    ['ten years', '2016-11-01'],
  ] as const) {
    const least =
      sqlOf(`select printer_id, cause, strftime('%Y-%m', opened_at) as month, count(*), sum(minutes_lost), sum(grams_scrapped)
      from cases join case_causes on case_causes.case_id = cases.id
      where state = 'closed' and opened_at >= '${fromDay}' group by 1, 2, 3`);
    const read = async () => String((await listClosedCauses(casebook.db, fromDay, '2026-11-01')).length);
    await compare(`${what}: reading the cases`, read, least, 3);
    const report = async () =>
      `${(await ask('lead:recurrence', { fromDay, toDay: '2026-10-31' })).rows.length} rows`;
    await compare(`${what}: with statistics, at first`, report, least, 1);
    // A station has been asked before: its code is compiled by then.
    if (what === 'a year') {
      for (let round = 0; round < 6; round++) await report();
      await compare(`${what}: with statistics, once warm`, report, least, 9);
    }
  }
  plain.close();
  await casebook.close();
}

const POSITION =
  "cast((cast(round(coalesce(unixepoch(cases.opened_at, 'subsec'), 0) * 1000) as integer) << 20) + (cases.number & 1048575) as integer)";

/** A call's own cost, whatever it asks: checking input and answer, the names of printers and spools. Below this a ratio says little. */
const FIXED_MS = 1;

async function compare(
  what: string,
  ours: () => Promise<string>,
  theirs: () => unknown,
  times = 11,
): Promise<void> {
  let answer = '';
  const our = await medianOf(times, async () => {
    answer = await ours();
  });
  const least = await medianOf(times, () => {
    theirs();
    return Promise.resolve();
  });
  const ratio = (by: keyof Taken) => (our[by] / least[by]).toFixed(2).padStart(6);
  const more = our.ms - least.ms;
  const isOnlyFixed = our.ms > 2 * least.ms && more < FIXED_MS;
  console.log(
    `  ${what.padEnd(36)} ${inMs(our.ms)} ms   least SQL ${inMs(least.ms)} ms  ${ratio('ms')} times   (${answer})` +
      `   of processor time ${inMs(our.processorMs)} and ${inMs(least.processorMs)} ms ${ratio('processorMs')} times` +
      (isOnlyFixed ? `; ${more.toFixed(2)} ms more, which any call costs` : ''),
  );
}

function inMs(ms: number): string {
  return ms.toFixed(ms < 10 ? 2 : 1).padStart(9);
}

/** What work took, by the clock and of the processor (all threads): others may be at work on the machine. */
interface Taken {
  readonly ms: number;
  readonly processorMs: number;
}

async function medianOf(times: number, work: () => Promise<void>): Promise<Taken> {
  const taken: Taken[] = [];
  for (let round = 0; round < times; round++) {
    const before = process.cpuUsage();
    const began = performance.now();
    await work();
    const ms = performance.now() - began;
    const { user, system } = process.cpuUsage(before);
    taken.push({ ms, processorMs: (user + system) / 1000 });
  }
  const median = (by: keyof Taken) =>
    taken.map((one) => one[by]).sort((a, b) => a - b)[Math.floor(times / 2)] ?? NaN;
  return { ms: median('ms'), processorMs: median('processorMs') };
}
