import { statSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import type { CallName } from '../../src-core/contract/call-names.ts';
import type { InputOf, OutputOf } from '../../src-core/contract/calls.ts';
import { withManyCases } from '../casebook/many-cases.ts';
import { isNightly } from '../nightly.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { figure } from './figures.ts';

const CASES = isNightly ? 100_000 : 500;
const inWords = (ms: number) => (ms < 1000 ? `${Math.round(ms)} ms` : `${(ms / 1000).toFixed(1)} s`);

async function timed<T>(name: string, work: () => Promise<T>): Promise<T> {
  const began = performance.now();
  const result = await work();
  figure(`${CASES.toLocaleString('en-GB')} cases: ${name}`, inWords(performance.now() - began));
  return result;
}

it(`${CASES.toLocaleString('en-GB')} whole cases: everything that a shop asks of them is answered, and all of it can be exported`, async () => {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const { program } = await withManyCases(CASES, { file, isWhole: true });
  await program.casebook.close();
  const { ask, program: second } = await timed('start', () => programInMemory({ file }));
  figure(`${CASES.toLocaleString('en-GB')} cases: size`, `${Math.round(statSync(file).size / 1e6)} MB`);
  const asked = <N extends CallName>(name: N, input: InputOf<N>) => timed(name, () => ask(name, input));

  expect((await timed('first page', () => ask('case:list', {}))).total).toBe(CASES + 1);
  expect(
    (await timed('search', () => ask('case:list', { search: 'heron stringing' }))).total,
  ).toBeGreaterThan(0);
  await asked('shop:read', {});
  await asked('lead:recurrence', { fromDay: '2025-12-01', toDay: '2026-12-31' });
  const { caseId } = await asked('case:open', {
    complaints: [{ observation: 'stringing', value: 'slight' }],
  });
  await asked('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
  expect((await asked('backup:make', {})).cases).toBe(CASES + 2);

  let exported = 0;
  await timed('export', async () => {
    for (let after: string | null = null; ;) {
      const page: OutputOf<'case:export'> = await ask('case:export', { after });
      exported += page.count;
      after = page.next;
      if (after === null) return;
    }
  });
  expect(exported).toBe(CASES + 2);
  figure(`${CASES.toLocaleString('en-GB')} cases: RSS`, `${Math.round(process.memoryUsage().rss / 1e6)} MB`);
  await second.casebook.close();
}, 3_600_000);
