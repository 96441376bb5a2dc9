import path from 'node:path';
import Database from 'better-sqlite3';
import { Kysely, sql, type KyselyPlugin } from 'kysely';
import { describe, expect, it } from 'vitest';
import { caseFilterSchema, type CaseFilterInput } from '../../src-core/contract/casebook-view.ts';
import { CASE_ORDER_IDS } from '../../src-core/contract/case-orders.ts';
import { listCases } from '../../src-main/casebook/case-list.repository.ts';
import type { CasebookDb } from '../../src-main/casebook/casebook.ts';
import { insertRows, MOVED_TABLES, rowsAfter, type Row } from '../../src-main/casebook/move/moved-tables.ts';
import { migrateToLatest, migrations, migrationsTelling } from '../../src-main/casebook/migrate.ts';
import { CasebookSqliteDialect } from '../../src-main/casebook/sqlite-dialect.ts';
import type { Tables } from '../../src-main/casebook/tables.ts';
import { buildCasebook } from '../bench/casebook/million.ts';
import { programInMemory, type TestProgram } from '../operations/program-in-memory.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { temporaryFolder } from '../temporary-folder.ts';

const isOnPostgres = process.env['BEADWRIGHT_TEST_ENGINE'] === 'postgres';

/** The same rows in PostgreSQL, whose triggers fill its own index. */
async function movedToPostgres({ program }: TestProgram): Promise<{ readonly db: CasebookDb }> {
  const { db } = (await programInMemory()).program.casebook;
  for (const table of MOVED_TABLES)
    for (let last: Row | null = null; ;) {
      const rows: readonly Row[] = await rowsAfter(program.casebook.db, table, last);
      last = rows.at(-1) ?? null;
      if (last === null) break;
      await insertRows(db, table, rows);
    }
  return { db };
}

const found = async ({ ask }: TestProgram, filter: CaseFilterInput) =>
  (await ask('case:list', filter)).rows.map(({ number }) => number);

async function withThreeCases() {
  const test = await programInMemory();
  const { printers } = await test.ask('shop:save-printer', {
    label: 'Östlicher Reiher',
    conditions: {},
    printHours: 1,
  });
  const printerId = printers[0]?.id ?? null;
  const open = async (words: string, openedBy: string, of = printerId) => {
    test.pass(1);
    return test.ask('case:open', {
      complaints: [{ observation: 'stringing', value: 'slight' }],
      printerId: of,
      openedBy,
      words,
    });
  };
  const cases = [
    await open('Fäden am Rand, 0.4 mm', 'KM'),
    await open('hairs on the rim of the "big" vase (AND) so on', 'RS', null),
    await open('clogged again', 'KM', null),
  ];
  return { ...test, cases, printerId };
}

describe('the search of the casebook', () => {
  it('finds words by their beginning, with or without accents, in any order', async () => {
    const test = await withThreeCases();
    expect(await found(test, { search: 'fad' })).toEqual([1]);
    expect(await found(test, { search: 'FÄDEN' })).toEqual([1]);
    expect(await found(test, { search: 'rim vas' })).toEqual([2]);
    expect(await found(test, { search: 'ase' })).toEqual([]);
    expect(await found(test, { search: '0.4' })).toEqual([1]);
    expect(await found(test, { search: 'ostlich' })).toEqual([1]);
    expect(await found(test, { search: 'string' })).toEqual([3, 2, 1]);
    expect(await found(test, { search: 'string', order: 'oldest' })).toEqual([1, 2, 3]);
    expect(await found(test, { search: '#2' })).toEqual([2]);
  });

  it('takes nothing that is typed for a command of its own', async () => {
    const test = await withThreeCases();
    for (const search of [
      '"big"',
      'AND',
      'vase) OR (words',
      'marks : open',
      'NEAR(',
      '*',
      '^so',
      'so"',
      '-so',
    ])
      await expect(test.ask('case:list', { search })).resolves.toBeDefined();
    expect(await found(test, { search: '"big" (AND)' })).toEqual([2]);
    // A mark is no word.
    expect(await found(test, { search: 'n2' })).toEqual([]);
    expect(await found(test, { search: 'sclosed' })).toEqual([]);
  });

  it('goes with every change of a case, in the same transaction', async () => {
    const test = await withThreeCases();
    const { caseId } = test.cases[2] ?? { caseId: '' };
    await test.ask('case:send', { caseId, revision: 1, event: { kind: 'noted', text: 'Zebra crossing' } });
    expect(await found(test, { search: 'zebra' })).toEqual([3]);
    await test.ask('case:send', { caseId, revision: 2, event: { kind: 'danger-answered', present: [] } });
    await test.ask('case:send', {
      caseId,
      revision: 3,
      event: {
        kind: 'closed',
        causes: [{ cause: 'wet-filament' }],
        practice: null,
        minutesLost: 5,
        gramsScrapped: 5,
        note: '',
      },
    });
    expect(await found(test, { cause: 'wet-filament' })).toEqual([3]);
    expect(await found(test, { cause: 'wet-filament', search: 'zebra', states: ['closed'] })).toEqual([3]);
    expect((await test.ask('case:list', { search: 'string' })).byState).toEqual({ closed: 1, 'stop-now': 2 });
    await test.ask('case:delete', { caseId, revision: 4 });
    expect(await found(test, { search: 'zebra' })).toEqual([]);
    await test.ask('bin:restore', { caseId });
    expect(await found(test, { search: 'zebra', cause: 'wet-filament' })).toEqual([3]);
    const { db } = test.program.casebook;
    await db
      .transaction()
      .execute(async (trx) => {
        await trx.updateTable('cases').set({ search_text: 'giraffe' }).execute();
        throw new Error('no');
      })
      .catch(() => undefined);
    expect(await found(test, { search: 'giraffe' })).toEqual([]);
    expect(await found(test, { search: 'zebra' })).toEqual([3]);
  });

  it('finds a spool by what it is called today', async () => {
    const test = await programInMemory();
    const spool = {
      polymer: 'pla',
      filler: 'none',
      fillerPercent: null,
      storage: null,
      openedAt: null,
    } as const;
    const shop = await test.ask('shop:save-spool', { ...spool, label: 'Quokka grey' });
    const [first] = shop.spools;
    await test.ask('case:open', {
      complaints: [{ observation: 'stringing', value: 'slight' }],
      spoolId: first?.id ?? null,
    });
    expect(await found(test, { search: 'quok' })).toEqual([1]);
    await test.ask('shop:save-spool', {
      ...spool,
      id: first?.id,
      revision: first?.revision,
      label: 'Numbat grey',
    });
    expect(await found(test, { search: 'quok' })).toEqual([]);
    expect(await found(test, { search: 'numb gre' })).toEqual([1]);
  });

  // Of a file's own migration.
  const onFile = isOnPostgres ? () => undefined : it;
  onFile('is built for the cases of an old casebook, which says how far it is', async () => {
    const database = new Database(':memory:');
    const db = new Kysely<Tables>({ dialect: new CasebookSqliteDialect(database) });
    const before = Object.fromEntries(Object.entries(migrations).filter(([name]) => name < '2026-12-04'));
    await migrateToLatest(db, before);
    database.exec(`with recursive n (i) as (select 1 union all select i + 1 from n where i < 12000)
      insert into cases select printf('%026d', i), i, 'closed', 1, '2026-01-01T00:00:00.000Z', null, null, null, null, 'x', '', 0,
        null, 0, 0, 'word' || (i % 3000) || ' shared', 'g', 'e', 0 from n`);
    const shares: number[] = [];
    await migrateToLatest(
      db,
      migrationsTelling((share) => shares.push(share)),
    );
    expect(shares).toEqual([5000 / 12000, 10000 / 12000, 1]);
    const listed = async (filter: CaseFilterInput, texts: string[]) =>
      listCases(db, caseFilterSchema.parse(filter), [texts]);
    expect((await listed({}, ['word2999'])).rows.map(({ number }) => number)).toEqual([
      11999, 8999, 5999, 2999,
    ]);
    expect(await listed({ limit: 1 }, ['shared'])).toMatchObject({ total: 10_000, isMore: true });
    await db.destroy();
  });
});

describe('every order and filter of the list', () => {
  it('answers the same cases with the index as without it', async () => {
    const file = path.join(temporaryFolder(), 'casebook.sqlite');
    await buildCasebook(file, 600, shippedKnowledge(), () => undefined);
    const onFile = await programInMemory({ file });
    await onFile.program.casebook.db
      .updateTable('cases')
      .set({
        profile: sql<string>`case number % 3 when 0 then 'Fine 0.2' when 1 then 'Draft' else '' end`,
        tags_json: sql<string>`case number % 4 when 0 then '["Trial 3"]' when 1 then '["big","Trial 3"]' else '[]' end`,
      })
      .execute();
    const { db } = isOnPostgres ? await movedToPostgres(onFile) : onFile.program.casebook;
    const all = await db
      .selectFrom('cases')
      .leftJoin('printers', 'printers.id', 'cases.printer_id')
      .selectAll('cases')
      .select('printers.label as printer')
      .execute();
    const causes = Map.groupBy(
      await db.selectFrom('case_causes').select(['case_id', 'cause']).execute(),
      ({ case_id }) => case_id,
    );
    const [some] = all;
    const filters: CaseFilterInput[] = [
      {},
      { printerId: some?.printer_id ?? null },
      { spoolId: some?.spool_id ?? null },
      { openedBy: 'AB' },
      { profile: 'Fine 0.2' },
      { tag: 'Trial 3' },
      { tag: 'big', profile: 'Draft' },
      { cause: causes.get(some?.id ?? '')?.[0]?.cause ?? '' },
      { leastMinutes: 40 },
      { leastGrams: 100, openedBy: 'KM' },
      { openedFrom: '2018-01-01T00:00:00.000Z', openedTo: '2022-01-01T00:00:00.000Z' },
      { closedFrom: '2018-01-01T00:00:00.000Z', closedTo: '2022-01-01T00:00:00.000Z' },
      { closedFrom: '2020-06-01T00:00:00.000Z', leastMinutes: 40 },
      { states: ['checking'] },
    ];
    for (const filter of filters)
      for (const search of ['', 'remedy'])
        for (const order of CASE_ORDER_IDS) {
          const whole = caseFilterSchema.parse({ ...filter, order, limit: 200 });
          const sought = search === '' ? [] : [[search]];
          const { rows, total, byState } = await listCases(db, whole, sought);
          const fits = all.filter(
            (one) =>
              (whole.printerId === null || one.printer_id === whole.printerId) &&
              (whole.spoolId === null || one.spool_id === whole.spoolId) &&
              (whole.openedBy === null || one.opened_by === whole.openedBy) &&
              (whole.profile === null || one.profile === whole.profile) &&
              (whole.tag === null || one.tags_json.includes(JSON.stringify(whole.tag))) &&
              (whole.cause === null ||
                (causes.get(one.id) ?? []).some(({ cause }) => cause === whole.cause)) &&
              one.minutes_lost >= whole.leastMinutes &&
              one.grams_scrapped >= whole.leastGrams &&
              (whole.openedFrom === null || one.opened_at >= whole.openedFrom) &&
              (whole.openedTo === null || one.opened_at < whole.openedTo) &&
              (whole.closedFrom === null || (one.closed_at ?? '') >= whole.closedFrom) &&
              (whole.closedTo === null || (one.closed_at ?? '9') < whole.closedTo) &&
              (whole.states.length === 0 || whole.states.some((state) => state === one.state)) &&
              one.search_text.includes(search),
          );
          const what = JSON.stringify({ ...filter, search, order });
          expect(total, what).toBe(fits.length);
          expect(rows.length, what).toBe(Math.min(200, fits.length));
          // Tabs are counted off the page where it shows all, and in the index where it does not.
          if (whole.states.length === 0) {
            const states = Map.groupBy(fits, ({ state }) => state);
            expect(byState, what).toEqual(
              Object.fromEntries([...states].map(([of, own]) => [of, own.length])),
            );
            if (order === 'newest')
              expect((await listCases(db, { ...whole, limit: 2 }, sought)).byState, what).toEqual(byState);
          }
          const shown = new Set(rows.map(({ number }) => number));
          expect(fits.filter(({ number }) => shown.has(number)).length, what).toBe(rows.length);
          const keys = rows.map((row) =>
            order.startsWith('printer')
              ? (row.printerLabel ?? '')
              : order.startsWith('tags')
                ? JSON.stringify(row.tags)
                : order.startsWith('profile')
                  ? (row.profile ?? '')
                  : order.startsWith('cost') || order.startsWith('cheap')
                    ? row.minutesLost
                    : order === 'newest' || order === 'oldest'
                      ? row.openedAt
                      : 0,
          );
          const sorted = keys.toSorted((a, b) => (a < b ? -1 : a > b ? 1 : 0));
          const isDown = ['newest', 'costliest', 'printer-down', 'profile-down', 'tags-down'].includes(order);
          expect(keys, what).toEqual(isDown ? sorted.toReversed() : sorted);
        }
  }, 120_000);

  // Of SQLite's own plans.
  const onFile = isOnPostgres ? () => undefined : it;
  onFile('looks neither at every case nor sorts them: the plans use the indexes', async () => {
    const { program, printerId } = await withThreeCases();
    const plans: string[] = [];
    const { db } = program.casebook;
    const asked: { sql: string; parameters: readonly unknown[] }[] = [];
    const noting: KyselyPlugin = {
      transformQuery: ({ node, queryId }) => {
        const { sql: text, parameters } = db.getExecutor().compileQuery(node, queryId);
        asked.push({ sql: text, parameters });
        return node;
      },
      transformResult: ({ result }) => Promise.resolve(result),
    };
    const noted: CasebookDb = db.withPlugin(noting);
    const planOf = async (filter: CaseFilterInput, sought: string[][] = []) => {
      asked.length = 0;
      await listCases(noted, caseFilterSchema.parse(filter), sought);
      plans.length = 0;
      for (const { sql: text, parameters } of [...asked]) {
        const explained = await sql<{
          detail: string;
        }>`${sql.raw('explain query plan ')}${withValues(text, parameters)}`.execute(db);
        plans.push(...explained.rows.map(({ detail }) => detail));
      }
      return plans.join('\n');
    };
    for (const order of CASE_ORDER_IDS.filter((one) => !/^(printer|spool)/.test(one))) {
      const plan = await planOf({ order });
      expect(plan, order).not.toContain('USE TEMP B-TREE FOR ORDER BY');
      expect(plan, order).not.toMatch(/SCAN cases$/m);
      // The tabs: open cases from an index of their own, and all by counting rows.
      expect(plan, order).toContain('COVERING INDEX cases_open_by_state');
      expect(plan, order).not.toContain('COVERING INDEX cases_by_state_number (');
    }
    for (const filter of [{ printerId }, { openedBy: 'KM' }, { openedFrom: '2026-01-01T00:00:00.000Z' }]) {
      const plan = await planOf(filter);
      expect(plan, JSON.stringify(filter)).not.toMatch(/SCAN cases$/m);
    }
    const searched = await planOf({}, [['stri']]);
    expect(searched).toContain('VIRTUAL TABLE INDEX');
    expect(searched).toContain('cases_by_position');
    expect(searched).not.toMatch(/SCAN cases/);
  });
});

function withValues(text: string, parameters: readonly unknown[]) {
  const pieces = text.split('?');
  return sql.join(
    pieces.flatMap((piece, at) =>
      at === 0 ? [sql.raw(piece)] : [sql`${parameters[at - 1]}`, sql.raw(piece)],
    ),
    sql.raw(''),
  );
}
