import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { FlowQuestion } from '../../src-core/contract/flow-sheet.ts';
import type { TemperatureUnit } from '../../src-core/contract/display-choices.ts';
import { FlowSheetQuestion } from '../../src-renderer/screens/flow/flow-question.svelte.ts';
import { createInMemoryHost } from './in-memory-host.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const PAUSE_MS = 200;

function form(unit: TemperatureUnit = '°C') {
  const { host, sent } = createInMemoryHost();
  const question = new FlowSheetQuestion(host, {
    unit: () => unit,
    usualNozzleC: (polymer) => ({ pla: 210, petg: 235 })[polymer] ?? null,
  });
  const inputs = () => sent.map(({ input }) => input as FlowQuestion);
  return { question, sent, inputs };
}

describe('the form of the flow sheet', () => {
  it('asks once after a pause in typing', async () => {
    const { question, inputs } = form();
    for (const text of ['1', '12', '120']) question.type('speedMmPerS', text);
    expect(inputs()).toHaveLength(0);
    await vi.advanceTimersByTimeAsync(PAUSE_MS);
    expect(inputs().map(({ speedMmPerS }) => speedMmPerS)).toEqual([120]);
  });

  it('the last question wins, whichever answer comes last', async () => {
    const { question, sent } = form();
    question.type('speedMmPerS', '80');
    await vi.advanceTimersByTimeAsync(PAUSE_MS);
    question.type('speedMmPerS', '90');
    await vi.advanceTimersByTimeAsync(PAUSE_MS);
    sent[1]?.reply({ ok: true, value: 'second' });
    await vi.advanceTimersByTimeAsync(0);
    sent[0]?.reply({ ok: true, value: 'first' });
    await vi.advanceTimersByTimeAsync(0);
    expect(question.answered).toMatchObject({ sheet: 'second', question: { speedMmPerS: 90 } });
  });

  it('asks nothing that cannot be, names the field, and takes no answer that comes meanwhile', async () => {
    const { question, sent, inputs } = form();
    question.type('speedMmPerS', '80');
    await vi.advanceTimersByTimeAsync(PAUSE_MS);
    question.type('lineWidthMm', '0.1');
    await vi.advanceTimersByTimeAsync(PAUSE_MS);
    expect([...question.faults]).toEqual([
      ['lineWidthMm', 'A line is at least as wide as its layer is high.'],
    ]);
    expect(inputs()).toHaveLength(1);
    sent[0]?.reply({ ok: true, value: 'of before' });
    await vi.advanceTimersByTimeAsync(0);
    expect(question.answered).toBeNull();
    question.type('speedMmPerS', 'fast');
    expect(question.faults.get('speedMmPerS')).toContain('mm/s');
  });

  it('takes a comma, leaves empty what is not known, and reads the reader’s unit', async () => {
    const { question, inputs } = form('°F');
    question.type('lineWidthMm', '0,5');
    question.type('nozzleC', '410');
    await vi.advanceTimersByTimeAsync(PAUSE_MS);
    expect(inputs()[0]).toMatchObject({ lineWidthMm: 0.5, nozzleC: 210, fillerPercent: null });
  });

  it('a printer and a spool fill in what the shop knows', async () => {
    const { question, inputs } = form();
    question.takePrinter({ conditions: { 'nozzle-mm': 0.6, frame: 'delta' } });
    question.takeSpool({
      polymer: 'petg',
      filamentDiameterMm: 2.85,
      filler: 'carbon-fibre',
      fillerPercent: 15,
    });
    await vi.advanceTimersByTimeAsync(PAUSE_MS);
    expect(inputs().at(-1)).toMatchObject({
      nozzleMm: 0.6,
      polymer: 'petg',
      filamentDiameterMm: 2.85,
      fillerPercent: 15,
      particleLengthMm: null,
      nozzleC: 235,
    });
  });

  it('another polymer brings its own temperature, but never over one that was typed', async () => {
    const { question } = form();
    question.choosePolymer('pla');
    expect(question.texts.nozzleC).toBe('210');
    question.choosePolymer('petg');
    expect(question.texts.nozzleC).toBe('235');
    question.type('nozzleC', '228');
    question.choosePolymer('pla');
    expect(question.texts.nozzleC).toBe('228');
    question.stop();
  });
});
