import path from 'node:path';
import { describe, expect, it } from 'vitest';
import type { IntakeInput } from '../../src-core/contract/case-event.ts';
import { compileKnowledge } from '../../src-core/knowledge/compile.ts';
import type { KnowledgeFile } from '../../src-core/knowledge/schema.ts';
import { shippedFiles, shippedKnowledge } from '../shipped-knowledge.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { programInMemory, type TestProgram } from './program-in-memory.ts';

const intake: IntakeInput = {
  conditions: { polymer: 'abs' },
  complaints: [{ observation: 'popping-while-loading', value: 'slight' }],
};
/** Of all candidates of that complaint the first, and one that stands behind it. */
const FIRST = 'wet-filament';

/** The shipped guide as it may have been: one cause a tenth as common, and another word for how often it pops. */
function earlierGuide(): { readonly version: string; readonly files: readonly KnowledgeFile[] } {
  const files = shippedFiles().map((file) => ({
    ...file,
    ...(file.causes && {
      causes: file.causes.map((cause) =>
        cause.id === FIRST
          ? { ...cause, prior: { ...cause.prior, perHundredCases: cause.prior.perHundredCases / 10 } }
          : cause,
      ),
    }),
    ...(file.linkTables && {
      linkTables: file.linkTables.map((table) =>
        table.id === 'popping-while-loading'
          ? { ...table, from: { ...table.from, [FIRST]: { slight: 0.02, heavy: 0.01 } } }
          : table,
      ),
    }),
  }));
  return { version: 'earlier', files };
}

async function underEarlier(
  keepsFiles: boolean,
): Promise<{ readonly file: string; readonly caseId: string }> {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const earlier = earlierGuide();
  const first = await programInMemory({
    file,
    engineVersion: 'one',
    knowledge: compileKnowledge(earlier.files, earlier.version),
    ...(keepsFiles && { guideFiles: () => earlier.files }),
  });
  const { caseId } = await first.ask('case:open', intake);
  await first.program.casebook.close();
  return { file, caseId };
}

const ranks = (candidates: Awaited<ReturnType<typeof ask>>['candidates'], side: 'then' | 'now') =>
  candidates.filter((one) => one[side] !== null).sort((a, b) => (b[side] ?? 0) - (a[side] ?? 0));
const ask = ({ ask: send }: TestProgram, caseId: string) => send('case:then-and-now', { caseId });

describe('what a case concluded then, and what it would now', () => {
  it('is the same under the same guide and engine, and nothing is said to have changed', async () => {
    const running = await programInMemory();
    const { caseId, candidates } = await running.ask('case:open', intake);
    const both = await ask(running, caseId);
    expect([both.isOtherGuide, both.isOtherEngine, both.changes]).toEqual([false, false, []]);
    expect(both.then).toEqual({ from: 'kept', ...both.now });
    expect(both.candidates.map(({ id, now }) => [id, now])).toEqual(
      candidates.slice(0, 6).map(({ cause, probability }) => [cause, probability]),
    );
    expect(both.candidates.every((one) => one.then === one.now && one.placeThen === one.placeNow)).toBe(true);
  });

  it('differs by what changed in the guide, which is named with its figures; the day’s own conclusion outlives the rebuilt step', async () => {
    const { file, caseId } = await underEarlier(true);
    const now = await programInMemory({ file, engineVersion: 'one', guideFiles: () => [] });
    // The step is made anew here, in the place of the one of that day.
    const view = await now.ask('case:view', { caseId });
    const both = await ask(now, caseId);
    expect([both.then.from, both.isOtherGuide, both.isOtherEngine]).toEqual(['kept', true, false]);
    expect(ranks(both.candidates, 'now').map(({ id }) => id)).toEqual(
      view.candidates.slice(0, 6).map(({ cause }) => cause),
    );
    const first = both.candidates.find(({ id }) => id === FIRST);
    expect(first?.placeNow).toBe(1);
    expect(first?.placeThen === null || (first?.placeThen ?? 0) > 1).toBe(true);
    // Two things were changed, and both are named; the sums were the same, so the guide alone moved it.
    expect(both.changes?.map(({ kind, cause }) => [kind, cause])).toEqual([
      ['link', first?.label],
      ['prior', first?.label],
    ]);
    expect(both.changes?.[0]?.before).toBeCloseTo(0.02, 10);
    const { causes } = shippedKnowledge();
    expect(both.changes?.[1]?.before).toBeLessThan(causes.get(FIRST)?.prior.perHundredCases ?? 0);
    expect(both.movedByEngine).toBeLessThan(1e-9);
    expect(both.movedByGuide).toBeGreaterThan(0);
  });

  it('stays what it was on that day where a step is made anew more than once, as after each change of the costs', async () => {
    const { file, caseId } = await underEarlier(true);
    const day = await programInMemory({
      file,
      engineVersion: 'one',
      knowledge: compileKnowledge(earlierGuide().files, 'earlier'),
    });
    const { then } = await ask(day, caseId);
    // Dear enough that planning goes another way, and then dearer still.
    for (const [revision, standstillPerHour] of [100, 100_000].entries()) {
      const costs = { currency: 'EUR', workPerHour: 0.01, standstillPerHour };
      await day.ask('shop:save-costs', { costs, revision });
      await day.ask('case:view', { caseId });
      expect((await ask(day, caseId)).then).toEqual(then);
    }
    await day.program.casebook.close();
    const now = await programInMemory({ file, engineVersion: 'one', guideFiles: () => [] });
    expect((await ask(now, caseId)).then).toEqual(then);
  });

  it('is worked out again from that day’s guide where nothing was kept, and is not known where the guide was not kept either', async () => {
    const { file, caseId } = await underEarlier(true);
    const now = await programInMemory({ file, engineVersion: 'two' });
    await now.program.casebook.db.deleteFrom('case_steps').execute();
    const again = await ask(now, caseId);
    expect([again.then.from, again.isOtherEngine]).toEqual(['worked-out', true]);
    expect(again.movedByEngine).toBeNull();
    expect(again.changes).toHaveLength(2);

    const lost = await underEarlier(false);
    const without = await programInMemory({ file: lost.file, engineVersion: 'two' });
    await without.program.casebook.db.deleteFrom('case_steps').execute();
    const unknown = await ask(without, lost.caseId);
    expect(unknown.then).toEqual({ from: 'not-known', next: null, remedy: null });
    expect(unknown.changes).toBeNull();
    expect(unknown.candidates.every(({ then, now: today }) => then === null && today !== null)).toBe(true);
  });

  it('a guide whose files cannot be read any more leaves what was kept, and says that its changes cannot be told', async () => {
    const { file, caseId } = await underEarlier(true);
    const now = await programInMemory({ file, engineVersion: 'one' });
    await now.program.casebook.db.updateTable('guides').set({ files_deflated: 'rubbish' }).execute();
    const both = await ask(now, caseId);
    expect([both.then.from, both.changes]).toEqual(['kept', null]);
  });
});
