import { describe, expect, it } from 'vitest';
import { flowQuestionSchema, type FlowQuestionInput } from '../../src-core/contract/flow-sheet.ts';
import { reportOnFlow } from '../../src-core/flow/index.ts';
import {
  bridgingRows,
  figure,
  flowRows,
  groupWords,
  heatRows,
  leadWords,
  questionWords,
} from '../../src-renderer/screens/flow/flow-words.ts';
import { inUnit } from '../../src-renderer/wording/words-in.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

function answer(fields: Partial<FlowQuestionInput>) {
  const question = flowQuestionSchema.parse({
    lineWidthMm: 0.42,
    layerHeightMm: 0.2,
    speedMmPerS: 60,
    nozzleMm: 0.4,
    polymer: 'pla',
    meltZone: 'short',
    ...fields,
  });
  return { question, sheet: reportOnFlow(shippedKnowledge(), question) };
}
const valueOf = (rows: readonly { label: string; value: string }[], label: string) =>
  rows.find((row) => row.label.startsWith(label))?.value;

describe('a flow sheet in words', () => {
  it('a closed group says its first line', () => {
    const { question, sheet } = answer({});
    expect(groupWords(heatRows(sheet, question))).toMatch(/^Share of what the hot end melts: \d+ %/);
    expect(groupWords([])).toBe('');
  });

  it.each([
    [0.0812345, '0.0812'],
    [4.524956, '4.52'],
    [18, '18'],
    [1234.5, '1235'],
  ])('%d reads "%s"', (value, words) => expect(figure(value)).toBe(words));

  // A short melt zone melts 8 to 15 mm³/s of PLA (common practice, from memory); this line is 0.0754 mm² (geometry).
  it.each([
    [60, '4.52 mm³/s: within what the hot end melts (8 to 15 mm³/s).'],
    [120, '9.05 mm³/s: most hot ends of this kind melt it, a weak one does not (8 to 15 mm³/s).'],
    [180, '13.6 mm³/s: more than most hot ends of this kind melt (8 to 15 mm³/s).'],
    [240, '18.1 mm³/s: more than hot ends of this kind melt (8 to 15 mm³/s).'],
  ])('at %d mm/s it leads with "%s"', (speedMmPerS, words) => {
    expect(leadWords(answer({ speedMmPerS }).sheet)).toBe(words);
  });

  it('says what is missing instead of a figure', () => {
    const { sheet, question } = answer({ polymer: null, meltZone: null });
    expect(leadWords(sheet)).toContain('Say polymer and melt zone');
    const notes = heatRows(sheet, question).map(({ note }) => note);
    expect(notes[0]).toBe('Say the polymer and the melt zone.');
    expect(flowRows(sheet, question).at(-1)?.note).toContain('Say the polymer for grams');
    expect(bridgingRows(sheet, question)[0]?.note).toContain('Say how much filler');
    const tpu = answer({ polymer: 'tpu', nozzleC: 225 });
    expect(heatRows(tpu.sheet, tpu.question).at(-1)?.note).toContain('Not given');
    const filled = answer({ fillerPercent: 20 });
    expect(valueOf(flowRows(filled.sheet, filled.question), 'Filament in an hour')).not.toContain(' g');
  });

  // PLA: activation energy 80 to 110 kJ/mol (handbooks, from memory); 100 kJ/mol from 240 to 250 °C is 0.639.
  it('gives the thinning in percent, and the difference of temperatures without the shift of 32', () => {
    const { sheet, question } = answer({ nozzleC: 210 });
    const hotter = heatRows(sheet, question).at(-1);
    expect(hotter?.value).toBe('57 to 67 % of now');
    expect(inUnit(hotter?.label ?? '', '°F')).toBe('Viscosity at 18 °F hotter');
    expect(inUnit(questionWords(question, 'PLA'), '°F')).toContain('(PLA, 410 °F)');
  });

  // Common practice: 30 % fibre jams 0.4 mm, and 0.6 mm is the cure.
  it('names the next bore for fibre', () => {
    const { sheet, question } = answer({ fillerPercent: 30, particleLengthMm: 0.15 });
    const rows = bridgingRows(sheet, question);
    expect(rows[0]?.value).toBe('High');
    expect(rows[1]?.note).toBe('That is, of those commonly sold, 0.6 mm.');
  });
});
