import { describe, expect, it } from 'vitest';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { programInMemory } from './program-in-memory.ts';

describe('materials against a use', () => {
  it('a failed part gives a case its conditions with their reasons, and the cause leads', async () => {
    const { ask } = await programInMemory();
    const { failedPart } = await ask('fit:materials', {
      application: { serviceTemperatureC: 60 },
      failedPart: { polymer: 'pla' },
    });
    const readings = failedPart?.readings ?? [];
    const view = await ask('case:open', {
      conditions: { polymer: 'pla', ...Object.fromEntries(readings.map(({ id, value }) => [id, value])) },
      because: Object.fromEntries(readings.map(({ id, because }) => [id, because])),
      complaints: [{ observation: 'part-sags-when-warm', value: 'present' }],
    });
    expect(view.candidates[0]?.cause).toBe('heat-above-limit');
  });

  it('a case can be opened for every polymer that the screen offers', async () => {
    const { ask } = await programInMemory();
    for (const { id, kind } of shippedKnowledge().materials.values()) {
      if (kind !== 'polymer') continue;
      const view = await ask('case:open', {
        conditions: { polymer: id },
        because: {},
        complaints: [{ observation: 'part-sags-when-warm', value: 'present' }],
      });
      expect(view.candidates.length, id).toBeGreaterThan(0);
    }
  });

  it('refuses a material that the guide lacks, and a temperature out of range, by name', async () => {
    const { ask } = await programInMemory();
    const hot = { serviceTemperatureC: 60 };
    await expect(ask('fit:materials', { application: hot, filler: 'pla' })).rejects.toThrow(
      'the guide has no filler "pla"',
    );
    await expect(
      ask('fit:materials', { application: { ...hot, standsInFor: 'carbon-fibre' } }),
    ).rejects.toThrow('the guide has no polymer "carbon-fibre"');
    await expect(ask('fit:materials', { application: { serviceTemperatureC: 400 } })).rejects.toThrow(
      'serviceTemperatureC',
    );
    await expect(
      ask('fit:materials', { application: { serviceTemperatureC: 20, lowestServiceTemperatureC: 30 } }),
    ).rejects.toThrow('the lowest temperature in service must not be above the highest');
  });
});
