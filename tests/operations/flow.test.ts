import { describe, expect, it } from 'vitest';
import { programInMemory } from './program-in-memory.ts';

const LINE = { lineWidthMm: 0.42, layerHeightMm: 0.2, speedMmPerS: 60, nozzleMm: 0.4 };

describe('flow sheet', () => {
  it('takes the density from the guide and cautions where more heat or another nozzle is suggested', async () => {
    const { ask } = await programInMemory();
    const plain = await ask('flow:sheet', { ...LINE, polymer: 'pla' });
    // 1 kg of PLA at the customary 1.24 g/cm³ is 335.284 m of 1.75 mm.
    expect((1000 * plain.metresPerHour) / (plain.gramsPerHour ?? 0)).toBeCloseTo(335.284, 2);
    expect(plain.cautions).toEqual([]);
    const hot = await ask('flow:sheet', { ...LINE, polymer: 'abs', nozzleC: 245 });
    expect(hot.cautions.map(({ id }) => id)).toEqual(['liner-overheats']);
    const jammed = await ask('flow:sheet', { ...LINE, fillerPercent: 30, particleLengthMm: 0.15 });
    expect(jammed.cautions.map(({ id }) => id)).toEqual(['hot-parts']);
  });

  it('refuses what the guide lacks and what cannot be, by name', async () => {
    const { ask } = await programInMemory();
    await expect(ask('flow:sheet', { ...LINE, polymer: 'carbon-fibre' })).rejects.toThrow(
      'the guide has no polymer "carbon-fibre"',
    );
    await expect(ask('flow:sheet', { ...LINE, speedMmPerS: 0 })).rejects.toThrow('speedMmPerS');
    await expect(ask('flow:sheet', { ...LINE, lineWidthMm: 0.1 })).rejects.toThrow(
      'a line is at least as wide as its layer is high',
    );
  });

  it('answers without a casebook', async () => {
    const { ask, program } = await programInMemory();
    await program.casebook.close();
    expect((await ask('flow:sheet', LINE)).flowMm3PerS).toBeCloseTo(4.524956, 5);
  });
});
