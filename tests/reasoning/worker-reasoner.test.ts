import { monitorEventLoopDelay } from 'node:perf_hooks';
import path from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { emptyContext, type CaseContext } from '../../src-core/session/case-machine.ts';
import { reasonerInThisThread, type Reasoner } from '../../src-main/reasoning/reasoner.ts';
import { reasonerInWorkers } from '../../src-main/reasoning/worker-reasoner.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const ROOT = path.join(import.meta.dirname, '..', '..');
const WORKER = path.join(ROOT, 'src-main', 'reasoning', 'worker.ts');

function started(): Reasoner {
  const reasoner = reasonerInWorkers(WORKER, { folder: ROOT, programVersion: '0.0.0-test' });
  onTestFinished(() => reasoner.close());
  return reasoner;
}

const complaints = [{ observation: 'popping-while-loading', value: 'heavy' }];
const context: CaseContext = {
  ...emptyContext,
  intake: { printerId: null, spoolId: null, openedBy: null, conditions: {}, complaints, words: '' },
  conditions: { polymer: 'abs', storage: 'open' },
  findings: { 'popping-while-loading': 'heavy', 'vapour-at-head': 'slight' },
};

describe('thinking in another thread', () => {
  it('gives the same answers as thinking in this one', async () => {
    const here = reasonerInThisThread(shippedKnowledge());
    const there = started();
    expect(await there.run('reason', context, null)).toEqual(await here.run('reason', context, null));
    expect(await there.run('second-thoughts', context)).toEqual(await here.run('second-thoughts', context));
    expect(await there.run('why-candidate', context, 'wet-filament')).toEqual(
      await here.run('why-candidate', context, 'wet-filament'),
    );
  });

  it('leaves this thread free to answer', async () => {
    const there = started();
    await there.run('rank', context);
    const delay = monitorEventLoopDelay({ resolution: 1 });
    delay.enable();
    const startedAt = performance.now();
    await Promise.all([
      there.run('second-thoughts', context),
      ...Array.from({ length: 10 }, () => there.run('reason', context, null)),
    ]);
    const elapsedMs = performance.now() - startedAt;
    delay.disable();
    // It thought for a while, and nine times in ten this thread was not held up for longer than a frame.
    expect(elapsedMs).toBeGreaterThan(50);
    expect(delay.percentile(90) / 1e6).toBeLessThan(20);
  });

  it('reports what a task throws, and goes on', async () => {
    const there = started();
    await expect(there.run('why-candidate', context, 'no-such-cause')).rejects.toThrow(
      'no cause "no-such-cause"',
    );
    const [first] = await there.run('rank', context);
    expect(first?.cause).toBe('wet-filament');
  });

  it('rejects what was under way when it ends, and begins anew for the next question', async () => {
    const there = started();
    await there.run('rank', context);
    const underWay = there.run('reason', context, null);
    const refused = expect(underWay).rejects.toThrow('the reasoning thread ended');
    await there.close();
    await refused;
    const [first] = await there.run('rank', context);
    expect(first?.cause).toBe('wet-filament');
  });
});
