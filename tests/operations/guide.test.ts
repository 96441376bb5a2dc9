import { describe, expect, it } from 'vitest';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { programInMemory } from './program-in-memory.ts';

describe('the guide’s sheets', () => {
  it('get what each cause looks like and what looks like it, in the shape of the contract', async () => {
    const { ask } = await programInMemory();
    for (const id of [...shippedKnowledge().causes.keys()].slice(0, 60)) {
      const { showings, rivals } = await ask('guide:cause', { cause: id });
      expect(showings.length, id).toBeGreaterThan(0);
      expect(rivals.map(({ cause }) => cause)).not.toContain(id);
    }
  });

  it('get what an observation speaks for', async () => {
    const { ask } = await programInMemory();
    const weights = await ask('guide:observation', { observation: 'stringing' });
    expect(weights.slice(0, 20).map(({ cause }) => cause)).toContain('wet-filament');
  });

  it('say what the guide does not have', async () => {
    const { dispatcher } = await programInMemory();
    for (const [name, input] of [
      ['guide:cause', { cause: 'gone' }],
      ['guide:observation', { observation: 'gone' }],
    ])
      expect(await dispatcher.dispatch(name, input)).toMatchObject({
        ok: false,
        error: { code: 'not-found' },
      });
  });
});

describe('statements of the form', () => {
  it('come in another order for other complaints and for causes', async () => {
    const { ask } = await programInMemory();
    const forStrings = await ask('guide:statements', { complaints: ['stringing'] });
    const forShifts = await ask('guide:statements', { complaints: ['layer-shift'] });
    const forWet = await ask('guide:statements', { causes: { 'wet-filament': 0.9 } });
    expect(forStrings.slice(0, 10)).not.toEqual(forShifts.slice(0, 10));
    expect(new Set(forWet)).toEqual(new Set(forStrings));
  });
});
