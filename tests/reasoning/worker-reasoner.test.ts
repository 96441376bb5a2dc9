import { trainingRunSchema } from '../../src-core/contract/training-view.ts';
import { readFileSync, writeFileSync } from 'node:fs';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import path from 'node:path';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { parse } from 'yaml';
import { demoShopSchema } from '../../src-core/training/demo-shop.ts';
import type { LoggedEvent } from '../../src-core/session/logged-event.ts';
import { emptyContext, type CaseContext } from '../../src-core/session/case-machine.ts';
import { reasonerInThisThread, type Reasoner } from '../../src-main/reasoning/reasoner.ts';
import { reasonerInWorkers, type WorkerOptions } from '../../src-main/reasoning/worker-reasoner.ts';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { restsOf } from './rests.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

const ROOT = path.join(import.meta.dirname, '..', '..');
const WORKER = path.join(ROOT, 'src-main', 'reasoning', 'worker.ts');

// Each test starts a thread. It reads the guide as kept beside the build: under another version it would keep its own in that place, and
// every program that starts beside it would parse the guide anew.
vi.setConfig({ testTimeout: 240_000 });

function started(options: WorkerOptions = {}): Reasoner {
  const reasoner = reasonerInWorkers(WORKER, { folder: ROOT, programVersion: programVersion(ROOT) }, options);
  onTestFinished(() => reasoner.close());
  return reasoner;
}

const END_MS = Date.parse('2026-03-02T08:00:00.000Z');

function demoYear() {
  const text = readFileSync(path.join(ROOT, 'resources', 'demo-shop.yaml'), 'utf8');
  const demo = demoShopSchema.parse(parse(text));
  const idsOf = (list: readonly unknown[]) => list.map((_, index) => `id-${index}`);
  return { demo, ids: { printers: idsOf(demo.printers), spools: idsOf(demo.spools) } };
}

const complaints = [{ observation: 'popping-while-loading', value: 'heavy' }];
const context: CaseContext = {
  ...emptyContext,
  intake: { printerId: null, spoolId: null, openedBy: null, conditions: {}, complaints, words: '' },
  conditions: { polymer: 'abs', storage: 'open' },
  findings: { 'popping-while-loading': 'heavy', 'vapour-at-head': 'slight' },
};

const log: LoggedEvent[] = [
  {
    seq: 1,
    at: '2026-03-02T12:00:00.000Z',
    event: {
      kind: 'opened',
      intake: {
        printerId: null,
        spoolId: null,
        openedBy: null,
        conditions: { polymer: 'abs', storage: 'open' },
        complaints,
        words: '',
      },
    },
  },
];
const around = { costs: null, spool: null };

describe('thinking in another thread', () => {
  it('gives the same answers as thinking in this one', async () => {
    const here = reasonerInThisThread(shippedKnowledge());
    const there = started();
    expect(await there.run('rebuild', log, around)).toEqual(await here.run('rebuild', log, around));
    expect(await there.run('second-thoughts', context)).toEqual(await here.run('second-thoughts', context));
    expect(await there.run('why-candidate', context, 'wet-filament')).toEqual(
      await here.run('why-candidate', context, 'wet-filament'),
    );
  });

  it('has what is likely asked next ready when it stood idle, the same as thinking at once', async () => {
    const here = reasonerInThisThread(shippedKnowledge());
    const rests = restsOf();
    const there = started({ onRested: rests.tell });
    const rested = rests.once(({ kept }) => kept > 0);
    const [opened] = log;
    if (!opened) throw new Error('no entry');
    const first = await there.run('advance', null, opened, around);
    if (!first.ok) throw new Error(inEnglish(first.reason));
    expect(await rested).toEqual({ hits: 0, misses: 1, kept: 1 });
    const after = rests.once(({ hits }) => hits > 0);
    const safe: LoggedEvent = { ...opened, seq: 2, event: { kind: 'danger-answered', present: [] } };
    expect(await there.run('advance', first.step, safe, around)).toEqual(
      await here.run('advance', first.step, safe, around),
    );
    expect(await after).toMatchObject({ hits: 1, misses: 1 });
  });

  it('thinks ahead of a case that somebody only looks at', async () => {
    const rests = restsOf();
    const there = started({ onRested: rests.tell });
    const [opened] = log;
    if (!opened) throw new Error('no entry');
    const first = await reasonerInThisThread(shippedKnowledge()).run('advance', null, opened, around);
    if (!first.ok) throw new Error(inEnglish(first.reason));
    // The thread by itself keeps no process alive.
    const awake = setInterval(() => undefined, 60_000);
    onTestFinished(() => clearInterval(awake));
    const rested = rests.once(({ kept }) => kept > 0);
    there.looked(first.step, around);
    there.looked(first.step, around);
    expect(await rested).toEqual({ hits: 0, misses: 0, kept: 1 });
    const after = rests.once(({ hits }) => hits > 0);
    const safe: LoggedEvent = { ...opened, seq: 2, event: { kind: 'danger-answered', present: [] } };
    await there.run('advance', first.step, safe, around);
    expect(await after).toMatchObject({ hits: 1, misses: 0 });
  });

  it('B10: what cannot be sent to it is refused, and what comes after it is answered', async () => {
    const there = started();
    const unsendable = { ...context, intake: (() => undefined) as unknown as CaseContext['intake'] };
    const [refused, answered] = await Promise.allSettled([
      there.run('rank', unsendable),
      there.run('rank', context),
    ]);
    expect([refused.status, answered.status]).toEqual(['rejected', 'fulfilled']);
  });

  it('leaves this thread free to answer', async () => {
    const there = started();
    await there.run('rank', context);
    const delay = monitorEventLoopDelay({ resolution: 1 });
    delay.enable();
    const startedAt = performance.now();
    await Promise.all([
      there.run('second-thoughts', context),
      ...Array.from({ length: 10 }, () => there.run('rebuild', log, around)),
    ]);
    const elapsedMs = performance.now() - startedAt;
    delay.disable();
    // It thought for a while, and nine times in ten this thread was not held up for longer than a frame.
    expect(elapsedMs).toBeGreaterThan(50);
    expect(delay.percentile(90) / 1e6).toBeLessThan(20);
  });

  it('keeps an earlier guide, which is compiled first, out of the way of answers', async () => {
    const stub = path.join(temporaryFolder(), 'worker.mjs');
    // Answers with the thread that it runs in.
    writeFileSync(
      stub,
      `import { parentPort, threadId } from 'node:worker_threads';
       parentPort.on('message', ({ id }) => parentPort.postMessage({ id, kind: 'done', value: threadId }));`,
    );
    const there = reasonerInWorkers(stub, { folder: ROOT, programVersion: programVersion(ROOT) });
    onTestFinished(() => there.close());
    const step = null as never;
    const [answer, earlier, long] = await Promise.all([
      there.run('rank', context),
      there.run('under-earlier-guide', { version: 'earlier', files: [] }, log, around, null, step),
      there.run('second-thoughts', context),
    ]);
    expect(earlier).toBe(long);
    expect(earlier).not.toBe(answer);
  });

  it('reports what a task throws, and goes on', async () => {
    const there = started();
    await expect(there.run('why-candidate', context, 'no-such-cause')).rejects.toThrow(
      'no cause "no-such-cause"',
    );
    const [first] = await there.run('rank', context);
    expect(first?.cause).toBe('wet-filament');
  });

  it('tells how far long work is, and gives the same as without being looked after', async () => {
    const there = started();
    const { demo, ids } = demoYear();
    const shares: number[] = [];
    const watch = { signal: new AbortController().signal, onProgress: (share: number) => shares.push(share) };
    const watched = await there.runWatched('demo-cases', watch, demo, ids, END_MS);
    expect(shares.length).toBeGreaterThan(50);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares.at(-1)).toBeGreaterThan(0.9);
    expect(watched).toEqual(
      await reasonerInThisThread(shippedKnowledge()).run('demo-cases', demo, ids, END_MS),
    );
  });

  it('ends long work at once when it is stopped, waiting or under way, and goes on with the next', async () => {
    const there = started();
    const { demo, ids } = demoYear();
    const stop = new AbortController();
    const watch = { signal: stop.signal, onProgress: () => stop.abort() };
    const underWay = there.runWatched('demo-cases', watch, demo, ids, END_MS);
    const waiting = there.runWatched(
      'training-view',
      watch,
      trainingRunSchema.parse({ seed: 1, actions: [] }),
      null,
    );
    const next = there.run('second-thoughts', context);
    await expect(underWay).rejects.toThrow('stopped');
    await expect(waiting).rejects.toThrow('stopped');
    expect((await next)?.first.cause).toBe('wet-filament');
    await expect(there.runWatched('rank', watch, context)).rejects.toThrow(/abort/i);
  });

  it('rejects what was under way when it ends, and begins anew for the next question', async () => {
    const there = started();
    await there.run('rank', context);
    const underWay = there.run('rebuild', log, around);
    const refused = expect(underWay).rejects.toThrow('the reasoning thread ended');
    await there.close();
    await refused;
    const [first] = await there.run('rank', context);
    expect(first?.cause).toBe('wet-filament');
  });
});
