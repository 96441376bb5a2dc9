import { sql } from 'kysely';
import { describe, expect, it } from 'vitest';
import { listPrinters } from '../../src-main/casebook/printer.repository.ts';
import { programInMemory, type TestProgram } from '../operations/program-in-memory.ts';
import { withManyCases } from './many-cases.ts';

const complaint = { complaints: [{ observation: 'stringing', value: 'slight' }] };
const CLOSED = 100_000;

describe('with 100,000 cases in the casebook', () => {
  it('attack, scale: reading the shop and sending an answer look at open cases only', async () => {
    const test = await withManyCases(CLOSED);
    const { db } = test.program.casebook;
    expect((await listPrinters(db))[0]?.openCases).toBe(1);
    // Not in milliseconds, which a busy machine stretches: beside the same work in an empty casebook.
    const empty = await programInMemory();
    // Counting over the whole table it was some thirty times as long, and the shop alone some hundred times.
    expect((await timeOf(test)) / (await timeOf(empty))).toBeLessThan(10);
  }, 240_000);

  it('counting the open cases of printers walks through none that is closed', async () => {
    const test = await withManyCases(CLOSED);
    const { db } = test.program.casebook;
    const compiled: string[] = [];
    await listPrinters(
      db.withPlugin({
        transformQuery: ({ node, queryId }) => {
          compiled.push(db.getExecutor().compileQuery(node, queryId).sql);
          return node;
        },
        transformResult: ({ result }) => Promise.resolve(result),
      }),
    );
    expect(compiled).toHaveLength(1);
    const plan = await sql<{ detail: string }>`${sql.raw(
      `explain query plan ${compiled[0]?.replaceAll('?', '1') ?? ''}`,
    )}`.execute(db);
    const details = plan.rows.map(({ detail }) => detail).join('\n');
    expect(details).toContain('cases_open_by_state');
    expect(details).not.toContain('cases_by_printer');
  }, 240_000);

  it('one query counts all tabs, from an index', async () => {
    const test = await withManyCases(CLOSED);
    const plan = await sql<{
      detail: string;
    }>`explain query plan select state, count(*) from cases group by state`.execute(test.program.casebook.db);
    expect(plan.rows.map(({ detail }) => detail).join()).toContain('COVERING INDEX cases_by_state');
    expect(await test.ask('case:list', { limit: 1 })).toMatchObject({
      total: CLOSED + 1,
      byState: { closed: CLOSED, 'stop-now': 1 },
    });
  }, 240_000);
});

/** The shortest of a few rounds of what an answer does to the casebook, ms. */
async function timeOf({ ask }: TestProgram): Promise<number> {
  const { caseId } = await ask('case:open', complaint);
  let shortest = Infinity;
  for (let revision = 1; revision <= 6; revision++) {
    const began = performance.now();
    await ask('shop:read', {});
    await ask('case:send', { caseId, revision, event: { kind: 'noted', text: 'again' } });
    shortest = Math.min(shortest, performance.now() - began);
  }
  return shortest;
}
