import { describe, expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { CLOSED } from './a-closed-case.ts';
import { programInMemory } from './program-in-memory.ts';

/** A case that smoke has stopped, made safe; events are sent at its newest revision. */
async function stoppedCase() {
  const { ask, program } = await programInMemory();
  const { caseId } = await ask('case:open', {
    complaints: [{ observation: 'popping-while-loading', value: 'slight' }],
  });
  const send = async (event: CaseEvent) => {
    const { revision } = await ask('case:view', { caseId });
    return ask('case:send', { caseId, revision, event });
  };
  await send({ kind: 'danger-answered', present: ['smoke-or-burning-smell'] });
  await send({ kind: 'made-safe' });
  return { program, caseId, ask, send };
}

// Common practice: a machine that smoked is given back by somebody qualified, not by whoever closes the paper on it.
describe('a case that a danger sign has stopped', () => {
  it.each([CLOSED, { kind: 'parked', note: 'later' } as const])(
    'is not $kind before somebody qualified has taken over',
    async (event) => {
      const { send } = await stoppedCase();
      await expect(send(event)).rejects.toThrow(/danger sign that nobody has taken over/);
    },
  );

  it('is not closed out of the hands of the lead either, and is once somebody has taken over', async () => {
    const { send } = await stoppedCase();
    await send({ kind: 'handed-over', note: 'smoke' });
    await expect(send(CLOSED)).rejects.toThrow(/danger sign that nobody has taken over/);
    await send({ kind: 'resumed' });
    await send({ kind: 'taken-over', by: 'QE' });
    expect((await send(CLOSED)).state).toBe('closed');
  });

  it('smoke is asked for first', async () => {
    const { ask, caseId } = await stoppedCase();
    const { dangerSigns } = await ask('case:view', { caseId });
    expect(dangerSigns[0]?.observation).toBe('smoke-or-burning-smell');
    expect(dangerSigns).toHaveLength(13);
  });
});
