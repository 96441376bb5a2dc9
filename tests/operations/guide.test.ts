import { expect, it } from 'vitest';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { programInMemory } from './program-in-memory.ts';

it('the guide’s pages get their details, and an id that the guide lacks is said to be missing', async () => {
  const { ask, dispatcher } = await programInMemory();
  const { showings, rivals } = await ask('guide:cause', { cause: 'wet-filament' });
  expect(showings.length).toBeGreaterThan(3);
  expect(rivals.length).toBeGreaterThan(0);
  const [looks] = showings;
  const weights = await ask('guide:observation', { observation: looks?.observation ?? '' });
  expect(weights.find(({ cause }) => cause === 'wet-filament')?.chance).toBe(looks?.chance);
  for (const reply of [
    await dispatcher.call('guide:cause', { cause: 'no-such' }),
    await dispatcher.call('guide:observation', { observation: 'no-such' }),
  ])
    expect(reply).toMatchObject({ ok: false, error: { code: 'not-found' } });
});

it('every page of the guide can be filled within the contract', async () => {
  const { ask } = await programInMemory();
  for (const cause of shippedKnowledge().causes.keys()) await ask('guide:cause', { cause });
  for (const observation of shippedKnowledge().observations.keys())
    await ask('guide:observation', { observation });
});

it('statements come in the order of the complaint or of the case', async () => {
  const { ask } = await programInMemory();
  const orderOf = (complaint: string) => ask('guide:statements', { complaints: [complaint] });
  expect(await orderOf('stringing')).not.toEqual(await orderOf('ringing'));
  const observations = await ask('guide:statements', { causes: {} });
  expect(observations.length).toBeGreaterThan(200);
});
