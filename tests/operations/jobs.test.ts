import { speak } from '../../src-renderer/messages/language.ts';
import { parse } from '../../src-renderer/messages/parse-pattern.ts';
import { wordsIn } from '../../src-renderer/wording/words-in.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { readJobFile } from '../../src-main/job-files/read-job-file.ts';
import { programInMemory } from './program-in-memory.ts';

/** Forty layers of a small square, fast through 0.8 mm, one of them faster. */
const JOB = [
  'M140 S100\nM104 S245\nG90\nM83',
  ...Array.from({ length: 40 }, (_, i) => {
    const feed = i === 20 ? 7200 : 3600;
    const side = (x: number, y: number) => `G1 X${x} Y${y} E6 F${feed}`;
    return `G0 X0 Y0 Z${(0.4 * (i + 1)).toFixed(2)} F9000\n${side(60, 0)}\n${side(60, 60)}\n${side(0, 60)}\n${side(0, 0)}\nG1 E-1 F2400\nG1 E1`;
  }),
  'M104 S0',
  '',
].join('\n');
const MACHINE = {
  nozzleMm: 0.8,
  polymer: 'abs',
  meltZone: 'short',
  filamentDiameterMm: 1.75,
  fillerPercent: null,
} as const;

function jobOnDisk(text: string): string {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-job-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = path.join(folder, 'part.gcode');
  writeFileSync(file, text);
  return file;
}

describe('a job file from a screen', () => {
  it('comes in pieces and is answered with conditions, findings and places', async () => {
    const { ask } = await programInMemory();
    const { jobId } = await ask('job:begin', MACHINE);
    for (let at = 0; at < JOB.length; at += 1000)
      await ask('job:piece', { jobId, at, bytes: JOB.slice(at, at + 1000) });
    const report = await ask('job:end', { jobId });
    const readings = Object.fromEntries(report.readings.map(({ id, value }) => [id, value]));
    // 6 mm of filament over 60 mm at 60 mm/s: 6 mm/s times 2.405 mm².
    expect(readings).toMatchObject({
      'nozzle-temperature': 245,
      'plate-temperature': 100,
      'layer-height-share': 50,
    });
    expect(readings['peak-flow']).toBeCloseTo(12 * 2.405, 0);
    // Layers of 4 s: whether the bad place is in one of them, the file does not say.
    expect(readings).not.toHaveProperty('layer-time');
    expect(report.remarks.some(({ text }) => inEnglish(text).includes('answer the time for one layer'))).toBe(
      true,
    );
    const over = report.remarks.find(({ text }) => inEnglish(text).includes('times what'));
    expect(over?.at?.layer).toBe(21);
    expect(report.grams).toBeCloseTo((40 * 24 * 2.40528 * 1050) / 1e6, 2);
    expect(report.layers).toHaveLength(40);
    await expect(ask('job:end', { jobId })).rejects.toThrow('not being read any more');
  });

  it('says what would help where the peak flow passes what the hot end melts, and where fibre nears bridging', async () => {
    const { ask } = await programInMemory();
    const remarksWith = async (fields: { nozzleMm: number; fillerPercent?: number; polymer?: string }) => {
      const { jobId } = await ask('job:begin', { ...MACHINE, ...fields });
      await ask('job:piece', { jobId, at: 0, bytes: JOB });
      return (await ask('job:end', { jobId })).remarks.map(({ text }) => inEnglish(text));
    };
    const plain = await remarksWith({ nozzleMm: 0.4 });
    const peak = plain.find((text) => text.includes('times what')) ?? '';
    // 28.86 mm³/s against ABS at 0.9 to 1 times PLA's 8 to 15 mm³/s (common practice, from memory): 7.2, 10.45, 15.
    expect(peak).toContain('At 36 % of its speed there it fits (25 % to be sure, 52 % at best).');
    // Hagen and Poiseuille: (0.4/0.5)⁴ = 0.41, (0.4/0.6)⁴ = 0.198.
    expect(peak).toContain('falls from 0.4 mm to 41 % through 0.5 mm and 20 % through 0.6 mm');
    expect(peak).toContain('melts no more for it');
    expect(plain.some((text) => text.includes('bridge'))).toBe(false);
    // Common practice: 30 % of fibre jams 0.4 mm, 0.6 mm cures it, 10 % passes.
    const jam = (texts: readonly string[]) => texts.find((text) => text.includes('may bridge'));
    expect(jam(await remarksWith({ nozzleMm: 0.4, fillerPercent: 30 }))).toContain('From 0.6 mm up');
    expect(jam(await remarksWith({ nozzleMm: 0.6, fillerPercent: 30 }))).toBeUndefined();
    expect(jam(await remarksWith({ nozzleMm: 0.4, fillerPercent: 10 }))).toBeUndefined();
    const wide = await remarksWith({ nozzleMm: 1 });
    expect(wide.find((text) => text.includes('times what'))).not.toContain('pressure');
  });

  it('refuses pieces out of turn, damage, and more than a few at once; a dropped one is gone', async () => {
    const { ask, pass } = await programInMemory();
    const { jobId } = await ask('job:begin', {});
    await ask('job:piece', { jobId, at: 0, bytes: 'G1 X1\n' });
    await expect(ask('job:piece', { jobId, at: 0, bytes: 'G1 X1\n' })).rejects.toThrow('6 bytes have come');
    await expect(ask('job:piece', { jobId, at: 6, bytes: 'G1 \0\n' })).rejects.toThrow(
      'line 2 holds a NUL byte',
    );
    await expect(ask('job:piece', { jobId, at: 11, bytes: 'G1' })).rejects.toThrow('not being read any more');
    const many = [];
    for (let i = 0; i < 4; i++) many.push(await ask('job:begin', {}));
    await expect(ask('job:begin', {})).rejects.toThrow('4 job files');
    await ask('job:drop', { jobId: many[0]?.jobId ?? '' });
    await ask('job:begin', {});
    pass(11);
    await ask('job:begin', {});
  });

  it('starts a case with what it shows, moves the odds, and brings measured findings that are no complaints', async () => {
    const { ask } = await programInMemory();
    const complaints = [{ observation: 'weak-layer-bonds', value: 'slight' }];
    const conditions = { polymer: 'abs', 'nozzle-mm': 0.8 };
    const plain = await ask('case:open', { conditions, complaints });
    const fast = await ask('case:open', {
      conditions: { ...conditions, 'peak-flow': 28.9 },
      because: { 'peak-flow': 'Layer 21: 28.9 mm³/s.' },
      measured: [{ observation: 'layer-height-share', value: 50 }],
      complaints,
    });
    const chance = (view: typeof plain) =>
      view.candidates.find(({ cause }) => cause === 'flow-beyond-melt')?.probability ??
      view.candidates.find(({ label }) => label.startsWith('More flow'))?.probability ??
      NaN;
    expect(chance(fast)).toBeGreaterThan(1.5 * chance(plain));
    expect(fast.complaints).toHaveLength(1);
    expect(fast.conditions.find(({ id }) => id === 'peak-flow')?.because).toBe('Layer 21: 28.9 mm³/s.');
    expect(fast.otherChecks.map(({ observation }) => observation)).not.toContain('layer-height-share');
  });

  it('is read from disk with progress, and ended half-way', async () => {
    const file = jobOnDisk(JOB.repeat(200));
    const shares: number[] = [];
    const figures = await readJobFile(file, MACHINE, { onProgress: (share) => shares.push(share) });
    expect(figures.lines).toBe(200 * (JOB.split('\n').length - 1));
    expect(shares.at(-1)).toBe(1);
    const stop = new AbortController();
    await expect(
      readJobFile(file, MACHINE, { signal: stop.signal, onProgress: () => stop.abort() }),
    ).rejects.toThrow(/abort/i);
  });
});

describe('a temperature log', () => {
  const swing = (clock: (s: number) => string, seconds = 600) =>
    Array.from(
      { length: seconds },
      (_, s) =>
        `${clock(s)}T:${(215 + 6 * Math.sin(s / 8)).toFixed(1)} /215.0 B:${(60 + 6 * Math.sin(s / 8)).toFixed(1)} /60.0`,
    ).join('\n');

  it('is answered with findings of the guide, of the nozzle only, and with figures of both heaters', async () => {
    const { ask } = await programInMemory();
    const { findings, heaters } = await ask('log:read', { text: swing((s) => `${s} `) });
    expect(findings.find(({ id }) => id === 'temperature-wobbles')).toMatchObject({
      value: 'heavy',
      valueLabel: 'Heavy',
    });
    expect(findings.filter(({ id }) => id === 'temperature-wobbles')).toHaveLength(1);
    expect(heaters.map(({ heater, seconds }) => [heater, seconds])).toEqual([
      ['T', 599],
      ['B', 599],
    ]);
    expect(heaters[1]?.remarks.map(inEnglish).join()).toContain('swings by');
    await expect(ask('log:read', { text: 'nothing' })).rejects.toThrow('no reading of the nozzle');
  });

  it('says what is wrong with a file in the language and the unit of the reader', async () => {
    const { ask, dispatcher } = await programInMemory();
    const { jobId } = await ask('job:begin', {});
    const hot = await dispatcher.call('job:piece', { jobId, at: 0, bytes: 'M104 S5000\n' });
    const log = await dispatcher.call('log:read', { text: 'nothing' });
    speak(
      'de',
      { 'jobFaults.damagedAt': 'Zeile {line}: {what}', 'jobFaults.noNozzleReading': 'keine Düse' },
      parse,
    );
    expect([hot, log].map((reply) => (reply.ok ? '' : wordsIn(reply.error.said ?? '', '°F')))).toEqual([
      'Zeile 1: a set point of 9032 °F; they run to 1832 °F',
      'keine Düse',
    ]);
    speak('en', {}, parse);
  });

  it('of the plate alone answers nothing about the nozzle', async () => {
    const { ask } = await programInMemory();
    const text = swing((s) => `${s} `).replaceAll(/T:\S+ \/\S+ /g, '');
    const { findings, heaters } = await ask('log:read', { text });
    expect(findings).toEqual([]);
    expect(heaters).toHaveLength(1);
  });

  it('without times answers nothing that needs time, and says why', async () => {
    const { ask } = await programInMemory();
    const { findings, heaters } = await ask('log:read', { text: swing(() => '') });
    expect(findings).toEqual([]);
    expect(heaters[0]).toMatchObject({ seconds: null });
    expect(heaters[0]?.remarks.map(inEnglish)).toEqual([expect.stringContaining('has no times')]);
    const broken = await ask('log:read', { text: `${swing(() => '')}\nT:-14.0 /215.0\n` });
    expect(broken.findings.map(({ id, value }) => [id, value])).toEqual([['reading-impossible', 'present']]);
  });

  it('answers nothing from a few readings', async () => {
    const { ask } = await programInMemory();
    const { findings } = await ask('log:read', { text: '0 T:214 /215.0\n1 T:215 /215.0\n' });
    expect(findings).toEqual([]);
  });
});

describe('a job outside what the guide knows', () => {
  it('leaves such a value out of the case, and says so', async () => {
    const { ask } = await programInMemory();
    const { jobId } = await ask('job:begin', MACHINE);
    await ask('job:piece', { jobId, at: 0, bytes: JOB.replace('M104 S245', 'M104 S90') });
    const { readings, remarks } = await ask('job:end', { jobId });
    expect(readings.map(({ id }) => id)).not.toContain('nozzle-temperature');
    expect(remarks.some(({ text }) => /prints at 90 °C.*does not take it/.test(inEnglish(text)))).toBe(true);
    const conditions = Object.fromEntries(
      readings.filter(({ kind }) => kind === 'condition').map(({ id, value }) => [id, value]),
    );
    await ask('case:open', {
      conditions,
      complaints: [{ observation: 'weak-layer-bonds', value: 'slight' }],
    });
  });
});
