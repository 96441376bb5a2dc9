import { describe, expect, it, vi } from 'vitest';
import type { HostApi } from '../../src-core/contract/host-api.ts';
import { CallsUnderWay } from '../../src-renderer/host/calls-under-way.ts';

/** A host that answers each call when it is told to. */
function heldHost() {
  const answers: (() => void)[] = [];
  const calls = new CallsUnderWay();
  const call = () =>
    new Promise((resolve) =>
      answers.push(() => resolve({ ok: false, error: { code: 'internal', message: '' } })),
    );
  const host = calls.watch({ call: call as unknown as HostApi['call'], follow: () => () => undefined });
  return { calls, ask: () => host.call('bench:read', {}), answers };
}

describe('a screen waits for what it asked for first', () => {
  it('is complete at once where it asked for nothing', async () => {
    const { calls } = heldHost();
    await calls.settled(60_000);
  });

  it('is complete when all is answered, and what an answer led to as well', async () => {
    const { calls, ask, answers } = heldHost();
    let isComplete = false;
    void ask();
    void ask().then(() => ask());
    const done = calls.settled(60_000).then(() => (isComplete = true));
    await vi.waitFor(() => expect(answers).toHaveLength(2));
    answers[0]?.();
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(isComplete).toBe(false);
    answers[1]?.();
    await vi.waitFor(() => expect(answers).toHaveLength(3));
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(isComplete).toBe(false);
    answers[2]?.();
    await done;
    expect(isComplete).toBe(true);
  });

  it('is shown all the same where an answer takes too long', async () => {
    const { calls, ask } = heldHost();
    void ask();
    await calls.settled(30);
  });
});
